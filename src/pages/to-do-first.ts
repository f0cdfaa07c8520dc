import { dayText } from './day-text.ts';
import { type Html, html } from './html.ts';
import { namedId } from './named-id.ts';
import { jobAnchor } from './job-anchor.ts';
import { jobSummary } from './job-summary.ts';
import { leadSentences } from './lead-sentences.ts';
import { outcomeTag } from './outcome-tag.ts';
import type { JobEvidence, ServiceManagerData } from './service-manager-data.ts';
import { countText } from './share-text.ts';
import { sortedFindings } from './sorted-findings.ts';

/** Last week's jobs to look at: one entry each, leading to its evidence further down. */
export function toDoFirst({ lookAt, week, jobs }: ServiceManagerData): Html {
  const days = `${dayText(week.from)} to ${dayText(week.to)}`;
  return html`<section aria-labelledby="first">
<h2 id="first">What to do first</h2>
${
  lookAt.length > 0 &&
  html`<p>${summary(lookAt)} in the last seven days of the data (${days}). Worst first.</p>
<ol class="plain todo">${lookAt.map(entry)}</ol>`
}
${lookAt.length === 0 && html`<p>${jobs === 0 ? 'There are no jobs in the data.' : `No job of the last seven days of the data (${days}) has a fail or suspect finding. Jobs that could not be judged are counted below.`}</p>`}
</section>`;
}

function summary(lookAt: readonly JobEvidence[]): string {
  const failed = lookAt.filter(({ findings }) => findings.some(({ outcome }) => outcome === 'fail')).length;
  const suspect = lookAt.length - failed;
  const parts = [
    failed > 0 && `${countText(failed, 'job')} with a fail finding`,
    suspect > 0 && `${countText(suspect, 'job')} with ${failed > 0 ? 'suspect findings only' : 'a suspect finding'}`,
  ];
  return parts.filter(Boolean).join(' and ');
}

/** An entry of the list says so much of its worst finding; the evidence below says it all. */
const headlineLength = 180;

function entry(job: JobEvidence): Html {
  const [worst, ...rest] = sortedFindings(job).flagged;
  return html`<li>
<div>${worst === undefined ? null : outcomeTag(worst.outcome)}</div>
<div><a class="job" href="#${jobAnchor(job.jobId)}">${namedId('Job', job.jobId)}</a>
<p>${worst === undefined ? 'See the findings.' : leadSentences(worst.text, headlineLength)}</p>
<p class="quiet">${jobSummary(job)}${rest.length > 0 && html` · <strong>${countText(rest.length, 'more finding')}</strong>`}</p></div>
</li>
`;
}
