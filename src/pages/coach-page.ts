import { pageColours } from '../charts/chart-colours.ts';
import { pairedTrace, pairedUnit } from '../charts/paired-trace.ts';
import type { UnitSystem } from '../units/display.ts';
import { cautions } from './cautions.ts';
import { chargeCharts } from './charge-charts.ts';
import { chartKey } from './chart-key.ts';
import { trainingText } from './change-text.ts';
import type { CoachReport, CoachTopic, TopicJob, TopicPair } from './coach-data.ts';
import { coachClosing, coachLeadText, pairText, savesText, topicText, wellText } from './coach-text.ts';
import { dayText } from './day-text.ts';
import { type Html, html } from './html.ts';
import { leadSentences } from './lead-sentences.ts';
import { namedId } from './named-id.ts';
import { outcomeTag } from './outcome-tag.ts';
import { PageCharts } from './page-charts.ts';
import { pageShell } from './page-shell.ts';
import { groupedCount, percentText } from './share-text.ts';
import { unitText } from './standing-out-text.ts';

/** Height of the chart with axes and labels [px]. */
const heightPx = 280;
/** A finding says so much of itself; the job's own page says it all. */
const findingLength = 240;

/**
 * A coaching sheet: what to work on, with the recordings that show it, what to practise, and what is going well.
 *
 * @returns one HTML document that works offline
 */
export async function renderCoachPage(report: CoachReport, units: UnitSystem): Promise<string> {
  const charts = new PageCharts();
  const name = unitText(report.who);
  const topics: Html[] = [];
  for (const [at, topic] of report.topics.entries())
    topics.push(await topicSection(topic, at + 1, report, units, charts));
  const body = html`<div class="page"><header><h1>Coaching sheet: ${name}</h1>
<p class="lead">${coachLeadText(report)}</p></header>
<main>
${topics.length === 0 && html`<section><h2>What to work on</h2><p>Nothing: in no skill was more found than others’ jobs lead to expect, or too few jobs could be judged to tell.</p></section>`}
${topics}
<section aria-labelledby="well"><h2 id="well">What is going well</h2>
${report.goingWell.length === 0 ? html`<p>In no skill was surely less found than is to be expected of such jobs.</p>` : html`<ul class="notes">${report.goingWell.map((well) => html`<li>${wellText(well)}</li>`)}</ul>`}
${report.trainings.length > 0 && html`<h3>Trainings</h3><ul class="notes">${report.trainings.map((training) => html`<li>${trainingText(training)}</li>`)}</ul>`}
</section>
<p class="quiet">${coachClosing}</p>
${cautions}</main></div>`;
  return pageShell({
    title: `Coaching sheet: ${name}`,
    description: `What to work on with ${name}, and what is going well`,
    body,
    charts,
  });
}

async function topicSection(
  topic: CoachTopic,
  place: number,
  report: CoachReport,
  units: UnitSystem,
  charts: PageCharts,
): Promise<Html> {
  const { skill, practise, jobs, pair } = topic;
  const title = `topic-${place}`;
  const saves = savesText(topic, report);
  return html`<section class="topic" aria-labelledby="${title}"><h2 id="${title}">${place}. ${skill.title}</h2>
${topicText(topic).map((text) => html`<p>${text}</p>`)}
${saves !== '' && html`<p>${saves}</p>`}
${checksTable(topic)}
<h3>What to practise</h3>
<ul class="notes">${practise.map(({ question, teach }) => html`<li><strong>${question}</strong> ${teach}</li>`)}</ul>
${jobs.length > 0 && html`<h3>Jobs that show it</h3><ul class="findings">${jobs.map((job) => jobItem(job, report))}</ul>`}
${pair !== null && (await pairFigures(pair, report, units, charts))}
</section>`;
}

function checksTable({ checks }: CoachTopic): Html | false {
  if (checks.length === 0) return false;
  return html`<div class="narrow"><table><thead><tr><th scope="col">check</th><th scope="col">found on these jobs</th><th scope="col">share</th><th scope="col">of all jobs</th></tr></thead>
<tbody>${checks
    .slice(0, 5)
    .map(
      ({ checkId, unit, all }) =>
        html`<tr><th scope="row">${checkId}</th><td>${groupedCount(unit.found)} of ${groupedCount(unit.jobs)}</td><td>${percentText(unit.found / unit.jobs)}</td><td>${percentText(all.found / all.jobs)}</td></tr>`,
    )}</tbody></table></div>`;
}

function jobItem({ jobId, day, technician, outcome, text, checkId }: TopicJob, { who }: CoachReport): Html {
  const by = who.kind === 'crew' && technician !== null ? ` · ${technician.name}` : '';
  return html`<li><div>${outcomeTag(outcome)}</div><div><h4>${namedId('Job', jobId)} · ${dayText(day)}${by}</h4><p>${outcome === 'missing' ? `No log that ${checkId} could be judged by.` : leadSentences(text, findingLength)}</p></div></li>`;
}

async function pairFigures(
  pair: TopicPair,
  report: CoachReport,
  units: UnitSystem,
  charts: PageCharts,
): Promise<Html | false> {
  const { shown, ownJobId, goodJobId } = pair;
  const text = pairText(pair, report.who);
  const heading = html`<h3>Beside one that went well</h3><p>${text}</p>`;
  if (shown.quantity === 'charge') {
    const own = await chargeCharts(ownJobId, shown.own, units, charts);
    const good = await chargeCharts(goodJobId, shown.good, units, charts);
    if (own === null || good === null) return false;
    return html`${heading}<div class="pair even"><div><h4>${namedId('Job', ownJobId)}</h4>${own}</div><div><h4>${namedId('Job', goodJobId)}, went well</h4>${good}</div></div>`;
  }
  const { quantity, own, good } = shown;
  const chart = pairedTrace(own, good, { quantity, units, colours: pageColours });
  if (chart === null) return false;
  const questions = {
    vacuum: 'How did the vacuum go on both?',
    pressure: 'How did the pressure test go on both?',
    superheat: 'How far was the suction line above saturation on both?',
    subcooling: 'How far was the liquid line below saturation on both?',
  };
  const key = [
    { mark: 'readings', text: namedId('job', ownJobId) },
    { mark: 'fitted', text: `${namedId('job', goodJobId)}, which went well` },
  ] as const;
  return html`${heading}<figure><figcaption>${questions[quantity]} <span class="quiet">${pairedUnit(quantity, units)}</span></figcaption>${await charts.add(chart, `${questions[quantity]} ${text}`, heightPx)}${chartKey(key)}</figure>`;
}
