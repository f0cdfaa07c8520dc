import { pageColours } from '../charts/chart-colours.ts';
import { riseTrace } from '../charts/rise-trace.ts';
import { isWithin } from '../charts/vacuum-recording.ts';
import { vacuumTrace } from '../charts/vacuum-trace.ts';
import { durationText, type UnitSystem, vacuumText } from '../units/display.ts';
import { type Html, html } from './html.ts';
import { namedId } from './named-id.ts';
import { jobAnchor } from './job-anchor.ts';
import { flaggedFindings, jobSummary } from './job-summary.ts';
import { outcomeTag, outcomesWorstFirst, outcomeWords } from './outcome-tag.ts';
import type { PageCharts } from './page-charts.ts';
import type { JobEvidence, JobFinding } from './service-manager-data.ts';

/**
 * One job with what was found, what to check, and the recording that shows it.
 *
 * @param place whether the section stands in a list that it leads back to, or alone on its page
 */
export async function evidenceSection(
  job: JobEvidence,
  units: UnitSystem,
  charts: PageCharts,
  place: 'listed' | 'alone' = 'listed',
): Promise<Html> {
  const anchor = jobAnchor(job.jobId);
  const flagged = flaggedFindings(job);
  const others = job.findings.filter((finding) => !flagged.includes(finding));
  return html`<section class="job-evidence" id="${anchor}" tabindex="-1" aria-labelledby="${anchor}-title">
<h3 id="${anchor}-title">${namedId('Job', job.jobId)}</h3>
<p class="facts">${jobSummary(job)}</p>
${flagged.length === 0 && html`<p>No fail or suspect finding.</p>`}
<ul class="findings">${flagged.map(
    (finding) => html`<li><div>${outcomeTag(finding.outcome)}</div><div><h4>${finding.question}</h4>
<p>${finding.text}${finding.basis !== '' && html` <span class="quiet">${finding.basis}</span>`}</p>${finding.teach !== '' && html`<p class="quiet">What to check: ${finding.teach}</p>`}</div></li>`,
  )}</ul>
${await recording(job, units, charts)}
${
  others.length > 0 &&
  html`<details><summary>Other checks on this job: ${countsText(others)}</summary>
<ul class="others">${others.map((finding) => html`<li>${outcomeTag(finding.outcome)}<p>${finding.question} <span class="quiet">${finding.text}</span></p></li>`)}</ul></details>`
}
${place === 'listed' && html`<p class="back quiet"><a href="#first">Back to the list</a></p>`}
</section>`;
}

function countsText(findings: readonly JobFinding[]): string {
  return outcomesWorstFirst
    .map((outcome) => ({ outcome, count: findings.filter((finding) => finding.outcome === outcome).length }))
    .filter(({ count }) => count > 0)
    .map(({ outcome, count }) => `${count} ${outcomeWords[outcome]}`)
    .join(', ');
}

async function recording(job: JobEvidence, units: UnitSystem, charts: PageCharts): Promise<Html> {
  const { trace, phases, limits } = job;
  if (trace === null || trace.elapsedS.length === 0)
    return html`<p class="quiet">No vacuum recording came with this job.</p>`;
  const unit = units === 'ip' ? 'microns' : 'Pa, absolute';
  const whole = vacuumTrace(trace, { phases, limits, units, colours: pageColours });
  const isolation = phases.findLast((span) => span.phase === 'isolation');
  const rise = riseTrace(trace, { phases, limits, units, colours: pageColours });
  const described = `${namedId('Job', job.jobId)}: vacuum over time. ${phases.map((span) => phaseText(span, job, units)).join('; ')}.`;
  return html`<div class="pair">
<figure><figcaption>How did the vacuum go? <span class="quiet">${unit}, logarithmic</span></figcaption>${await charts.add(whole, described, 296)}</figure>
${rise !== null && html`<figure><figcaption>How did the pressure rise after isolation? <span class="quiet">${unit}, linear, last isolation</span></figcaption>${await charts.add(rise, `${namedId('Job', job.jobId)}: pressure during the last isolation. ${isolation ? phaseText(isolation, job, units) : ''}.`, 296)}</figure>`}
</div>
${phases.length === 0 && html`<p class="quiet">No phases could be told apart in this recording.</p>`}
${
  phases.length > 0 &&
  html`<details><summary>Phases as a table</summary>
<div class="scroll" tabindex="0" role="region" aria-label="Phases of ${namedId('job', job.jobId)}">
<table><thead><tr><th scope="col">phase</th><th scope="col">from, min</th><th scope="col">to, min</th><th scope="col">first reading</th><th scope="col">last reading</th></tr></thead>
<tbody>${phases.map((span) => {
    const { first, last } = ends(span, job);
    return html`<tr><th scope="row">${span.phase}</th><td>${(span.startS / 60).toFixed(1)}</td><td>${(span.endS / 60).toFixed(1)}</td><td>${pressure(first, units)}</td><td>${pressure(last, units)}</td></tr>`;
  })}</tbody></table></div></details>`
}`;
}

type Span = JobEvidence['phases'][number];

/** First and last pressures read in a phase [Pa]; above the gauge's range is infinite. */
function ends(span: Span, { trace, phases }: JobEvidence): { first: number | undefined; last: number | undefined } {
  const read = trace?.elapsedS.flatMap((elapsedS, index) => {
    if (!isWithin(elapsedS, span, phases)) return [];
    if (trace.over[index]) return [Number.POSITIVE_INFINITY];
    const pa = trace.vacuumPa[index] ?? null;
    return pa === null ? [] : [pa];
  });
  return { first: read?.[0], last: read?.at(-1) };
}

const pressure = (pa: number | undefined, units: UnitSystem) => (pa === undefined ? '–' : vacuumText(pa, units));

function phaseText(span: Span, job: JobEvidence, units: UnitSystem): string {
  const { first, last } = ends(span, job);
  return `${span.phase} ${durationText(span.endS - span.startS)}, from ${pressure(first, units)} to ${pressure(last, units)}`;
}
