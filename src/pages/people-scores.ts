import { type Html, html } from './html.ts';

/** What of the mix of jobs is in such scores. */
const mix = {
  'all jobs': html`They are not adjusted for the mix of jobs. Long lines, repairs on opened systems and cold days are flagged more often whoever does them. The trainer’s page and <code>dryhold fleet</code> hold each person’s jobs against what is expected of such jobs.`,
  'such jobs': html`What is expected goes by what is on record of a job, and by nothing else: a hard neighbourhood, a dispatcher’s choice or an apprentice along are not in it. Shares without an expectation beside them are not adjusted at all.`,
} as const;

/**
 * What scores about people cannot show: on every page that has some.
 *
 * @param beside whether they stand beside those of all jobs, or beside what is expected of such jobs
 */
export function peopleScores(beside: keyof typeof mix): Html {
  return html`<section aria-labelledby="people">
<h2 id="people">What these shares cannot show</h2>
<ul class="notes">
<li>They are for coaching: where to ride along and what to look at together. They are no measure of a person, and no ground for pay or discipline.</li>
<li>${mix[beside]}</li>
<li>Longer tests and finer gauges find more. Whoever tests thoroughly can look worse than somebody who hardly tests.</li>
<li>A crew shares pump, hoses, gauge and scale. A fault of the gear shows on everyone who used it; <code>dryhold fleet</code> says where the two can be told apart.</li>
<li>Small numbers show little: with 10 judged jobs and 2 flagged, the true share may lie anywhere between 6 and 51%.</li>
<li>A job that could not be judged counts neither for nor against anyone; a lost recording is not a bad job.</li>
<li>The same curve in two jobs may be a shared logger or a file exported twice: a match, never an accusation.</li>
<li>A person can review a finding and mark it as confirmed, excused or wrong.</li>
</ul>
</section>`;
}
