import type { UnitSystem } from '../units/display.ts';
import { chargeCharts } from './charge-charts.ts';
import { type Html, html } from './html.ts';
import { namedId } from './named-id.ts';
import { outcomeTag, outcomeWords } from './outcome-tag.ts';
import type { PageCharts } from './page-charts.ts';
import { pressureCharts } from './pressure-charts.ts';
import { phaseReadings, readingText } from './phase-readings.ts';
import { recordingCharts } from './recording-charts.ts';
import { runCharts } from './run-charts.ts';
import { saturationFigure } from './saturation-figure.ts';
import type { JobEvidence } from './job-evidence-data.ts';
import { sharedCurveFigure } from './shared-curve-figure.ts';
import { type SortedFindings, sortedFindings } from './sorted-findings.ts';

/**
 * The evidence of one job: what was found and what to check, the recordings that show it, what happened in the order of the work, and the
 * other checks.
 */
export async function evidenceSections(job: JobEvidence, units: UnitSystem, charts: PageCharts): Promise<Html> {
  const sorted = sortedFindings(job);
  return html`<section aria-labelledby="findings"><h2 id="findings">What to look at</h2>
${sorted.flagged.length === 0 && html`<p>No fail or suspect finding.</p>`}
<ul class="findings">${sorted.flagged.map(
    (finding) => html`<li><div>${outcomeTag(finding.outcome)}</div><div><h3>${finding.question}</h3>
<p>${finding.text}${finding.basis !== '' && html` <span class="quiet">${finding.basis}</span>`}</p>${finding.teach !== '' && html`<p class="quiet">What to check: ${finding.teach}</p>`}${finding.unseen !== '' && html`<p class="quiet">Could not have seen: ${finding.unseen}</p>`}</div></li>`,
  )}</ul>
${others(sorted)}</section>
<section aria-labelledby="recordings"><h2 id="recordings">The recordings</h2>
${job.shared !== null && (await sharedCurveFigure(job.jobId, job.shared, units, charts))}
${job.pressureTest !== null && (await pressureCharts(job.jobId, job.pressureTest, units, charts))}
${await recording(job, units, charts)}
${await chargeAndRun(job, units, charts)}</section>
${job.story.length > 0 && html`<section aria-labelledby="story"><h2 id="story">What happened, step by step</h2>${job.story.map((paragraph) => html`<p class="story">${paragraph}</p>`)}</section>`}`;
}

/** What could not be judged, by reason, and what passed. */
function others({ unjudged, passed }: SortedFindings): Html | false {
  if (unjudged.length === 0 && passed.length === 0) return false;
  const counts = (['pass', 'not-evaluated', 'missing'] as const).flatMap((outcome) => {
    const count =
      outcome === 'pass'
        ? passed.length
        : unjudged.reduce((sum, group) => sum + (group.outcome === outcome ? group.questions.length : 0), 0);
    return count === 0 ? [] : [`${count} ${outcomeWords[outcome]}`];
  });
  return html`<details><summary>Other checks on this job: ${counts.join(', ')}</summary>
<ul class="others">${unjudged.map(
    ({ outcome, text, questions }) =>
      html`<li>${outcomeTag(outcome)}<div><p>${text}</p><p class="quiet">${questions.join(' ')}</p></div></li>`,
  )}${
    passed.length > 0 &&
    html`<li>${outcomeTag('pass')}<ul class="plain-list">${passed.map(({ question, text, unseen }) => html`<li>${question} <span class="quiet">${text}${unseen !== '' && ` Could not have seen: ${unseen}`}</span></li>`)}</ul></li>`
  }</ul></details>`;
}

async function recording(job: JobEvidence, units: UnitSystem, charts: PageCharts): Promise<Html> {
  const { trace, phases } = job;
  if (trace === null || trace.elapsedS.length === 0)
    return html`<p class="quiet">No vacuum recording came with this job.</p>`;
  return html`${await recordingCharts({ ...job, trace }, units, charts)}
${phases.length === 0 && html`<p class="quiet">No phases could be told apart in this recording.</p>`}
${
  phases.length > 0 &&
  html`<details><summary>Phases as a table</summary>
<div class="scroll" tabindex="0" role="region" aria-label="Phases of ${namedId('job', job.jobId)}">
<table><thead><tr><th scope="col">phase</th><th scope="col">from, min</th><th scope="col">to, min</th><th scope="col">first reading</th><th scope="col">last reading</th></tr></thead>
<tbody>${phases.map((span) => {
    const { first, last } = phaseReadings(span, job);
    return html`<tr><th scope="row">${span.phase}</th><td>${(span.startS / 60).toFixed(1)}</td><td>${(span.endS / 60).toFixed(1)}</td><td>${readingText(first, units)}</td><td>${readingText(last, units)}</td></tr>`;
  })}</tbody></table></div></details>`
}`;
}

/** What went in and how the system ran, side by side where there is room; of three the first has a row of its own. */
async function chargeAndRun({ jobId, scale, run }: JobEvidence, units: UnitSystem, charts: PageCharts) {
  const figures = [
    scale === null ? null : await chargeCharts(jobId, scale, units, charts),
    run === null ? null : await runCharts(jobId, run, units, charts),
    run === null ? null : await saturationFigure(jobId, run, units, charts),
  ].filter((figure) => figure !== null);
  return figures.length > 0 && html`<div class="pair even">${figures}</div>`;
}
