import type { Outcome } from '../checks/check.ts';
import { Html, html } from './html.ts';
import { outcomesWorstFirst, outcomeWords } from './outcome-tag.ts';
import { countText, groupedCount, shareText } from './share-text.ts';
import type { CheckCount, ServiceManagerData } from './service-manager-data.ts';

/** What every check found over all jobs; jobs it could not judge stand beside those it could. */
export function checksSection({ checks, jobs, jobsJudged, jobsFlagged }: ServiceManagerData): Html {
  const unjudged = jobs - jobsJudged;
  return html`<section aria-labelledby="checks">
<h2 id="checks">What the checks found</h2>
${checks.length === 0 && html`<p>No check has run.</p>`}
${
  checks.length > 0 &&
  html`<p>Over the whole period, judged jobs with a fail or suspect finding: <strong>${shareText(jobsFlagged, jobsJudged)}</strong>.${unjudged > 0 && ` No check could judge ${countText(unjudged, 'job')}.`}</p>
<p class="quiet">Jobs by outcome. “Not evaluated”: the recording could not carry a judgement. “Missing”: the step was not recorded, or not done.</p>
<table class="stack" role="table"><caption>All jobs of the period, per check</caption>
<thead role="rowgroup"><tr role="row"><th role="columnheader" scope="col">question</th>${outcomesWorstFirst.map((outcome) => html`<th role="columnheader" scope="col">${outcomeWords[outcome]}</th>`)}</tr></thead>
<tbody role="rowgroup">${checks.map(row)}</tbody></table>`
}
</section>`;
}

function row(check: CheckCount): Html {
  const counts: Record<Outcome, number> = {
    fail: check.fail,
    suspect: check.suspect,
    pass: check.pass,
    'not-evaluated': check.notEvaluated,
    missing: check.missing,
  };
  return html`<tr role="row"><th role="rowheader" scope="row">${check.question}${bar(counts)}</th>${outcomesWorstFirst.map(
    (outcome) =>
      html`<td role="cell" data-label="${outcomeWords[outcome]}"${counts[outcome] === 0 && html` class="zero"`}>${groupedCount(counts[outcome])}</td>`,
  )}</tr>
`;
}

/** The same counts as lengths; the numbers beside it say everything. */
function bar(counts: Record<Outcome, number>): Html {
  const total = outcomesWorstFirst.reduce((sum, outcome) => sum + counts[outcome], 0);
  let start = 0;
  const parts = outcomesWorstFirst.map((outcome) => {
    const width = total === 0 ? 0 : (200 * counts[outcome]) / total;
    const part = `<rect class="${outcome}" x="${start.toFixed(2)}" y="0" width="${width.toFixed(2)}" height="8"/>`;
    start += width;
    return width === 0 ? '' : part;
  });
  return new Html(
    `<svg class="bar" viewBox="0 0 200 8" preserveAspectRatio="none" aria-hidden="true">${parts.join('')}</svg>`,
  );
}
