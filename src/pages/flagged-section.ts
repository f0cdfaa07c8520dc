import { dayText } from './day-text.ts';
import { type Html, html } from './html.ts';
import { jobLink } from './job-link.ts';
import { jobSummary } from './job-summary.ts';
import { leadSentences } from './lead-sentences.ts';
import { outcomeTag } from './outcome-tag.ts';
import { mostSentBack } from './send-back-section.ts';
import type { JobEvidence } from './job-evidence-data.ts';
import type { ServiceManagerData } from './service-manager-data.ts';
import { countText } from './share-text.ts';
import { sortedFindings } from './sorted-findings.ts';

/** So many are listed. */
export const mostLookedAt = 30;

/** Last week's flagged jobs, each with its worst finding, leading to its page. */
export function flaggedSection({ lookAt, sendBack, week, jobs, jobPages }: ServiceManagerData): Html {
  const days = `${dayText(week.from)} to ${dayText(week.to)}`;
  const told = new Set(sendBack.slice(0, mostSentBack).map(({ job }) => job.jobId));
  const others = lookAt.filter(({ jobId }) => !told.has(jobId));
  const more = week.jobsFlagged - lookAt.length;
  return html`<section aria-labelledby="flagged">
<h2 id="flagged">Flagged last week</h2>
${
  lookAt.length > 0 &&
  html`<p>${summary(lookAt)} in the last seven days of the data (${days}). Worst first${others.length < lookAt.length && ', without those above'}.${more > 0 && ` ${countText(more, 'more')} are flagged: dryhold show tells of each.`}</p>
<ol class="plain todo">${others.map((job) => entry(job, jobPages))}</ol>`
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

/** An entry of the list says so much of its worst finding; its page says it all. */
const headlineLength = 180;

function entry(job: JobEvidence, pages: ReadonlySet<string>): Html {
  const [worst, ...rest] = sortedFindings(job).flagged;
  return html`<li>
<div>${worst === undefined ? null : outcomeTag(worst.outcome)}</div>
<div>${jobLink(job.jobId, pages)}
<p>${worst === undefined ? 'See the findings.' : leadSentences(worst.text, headlineLength)}</p>
<p class="quiet">${jobSummary(job)}${rest.length > 0 && html` · <strong>${countText(rest.length, 'more finding')}</strong>`}</p></div>
</li>
`;
}
