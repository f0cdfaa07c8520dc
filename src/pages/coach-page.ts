import type { UnitSystem } from '../units/display.ts';
import type { InUnits } from '../units/in-units.ts';
import { cautions } from './cautions.ts';
import { trainingText } from './change-text.ts';
import type { CoachReport, CoachTopic, TopicJob, TopicPair } from './coach-data.ts';
import { coachClosing, coachLeadText, savesText, topicText, wellText } from './coach-text.ts';
import { dayText } from './day-text.ts';
import { type Html, html } from './html.ts';
import { jobLink } from './job-link.ts';
import { leadSentences } from './lead-sentences.ts';
import { outcomeTag } from './outcome-tag.ts';
import type { PageCharts } from './page-charts.ts';
import type { PageContent, Reader } from './page-content.ts';
import { pairFigures } from './pair-figures.ts';
import { placeLinks } from './report-places.ts';
import { groupedCount, percentText } from './share-text.ts';
import { checkWords, unitText } from './standing-out-text.ts';

/** A finding says so much of itself; the job's own page says it all. */
const findingLength = 240;

/**
 * A coaching sheet: what to work on, with the recordings that show it, what to practise, and what is going well.
 *
 * @param pages jobs that have a page of their own beside it, where it is one of a report's pages; absent where it stands alone
 */
export function coachPage(report: InUnits<CoachReport>, reader: Reader, pages?: ReadonlySet<string>): PageContent {
  const name = unitText(report(reader.units).who);
  return {
    title: `Coaching sheet: ${name}`,
    description: `What to work on with ${name}, and what is going well`,
    reader,
    places: pages === undefined ? undefined : placeLinks(null),
    body: (units, charts) => body(report(units), pages ?? new Set(), units, charts),
  };
}

async function body(
  report: CoachReport,
  pages: ReadonlySet<string>,
  units: UnitSystem,
  charts: PageCharts,
): Promise<Html> {
  const topics: Html[] = [];
  for (const [at, topic] of report.topics.entries())
    topics.push(await topicSection(topic, at + 1, { report, pages, units, charts }));
  return html`<div class="page"><header><h1>Coaching sheet: ${unitText(report.who)}</h1>
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
}

interface Sheet {
  readonly report: CoachReport;
  readonly pages: ReadonlySet<string>;
  readonly units: UnitSystem;
  readonly charts: PageCharts;
}

async function topicSection(topic: CoachTopic, place: number, { report, pages, units, charts }: Sheet): Promise<Html> {
  const { skill, practise, jobs, pair } = topic;
  const title = `topic-${place}`;
  const saves = savesText(topic, report);
  return html`<section class="topic" aria-labelledby="${title}"><h2 id="${title}">${place}. ${skill.title}</h2>
${topicText(topic).map((text) => html`<p>${text}</p>`)}
${saves !== '' && html`<p>${saves}</p>`}
${checksTable(topic)}
<h3>What to practise</h3>
<ul class="notes">${practise.map(({ question, teach }) => html`<li><strong>${question}</strong> ${teach}</li>`)}</ul>
${jobs.length > 0 && html`<h3>Jobs that show it</h3><ul class="findings">${jobs.map((job) => jobItem(job, report, pages))}</ul>`}
${pair !== null && (await besideGood(pair, report, units, charts))}
</section>`;
}

function checksTable({ checks }: CoachTopic): Html | false {
  if (checks.length === 0) return false;
  return html`<div class="narrow"><table><thead><tr><th scope="col">check</th><th scope="col">found on these jobs</th><th scope="col">share</th><th scope="col">of all jobs</th></tr></thead>
<tbody>${checks
    .slice(0, 5)
    .map(
      ({ checkId, unit, all }) =>
        html`<tr><th scope="row">${checkWords(checkId)}</th><td>${groupedCount(unit.found)} of ${groupedCount(unit.jobs)}</td><td>${percentText(unit.found / unit.jobs)}</td><td>${percentText(all.found / all.jobs)}</td></tr>`,
    )}</tbody></table></div>`;
}

function jobItem(
  { jobId, day, technician, outcome, text, checkId }: TopicJob,
  { who }: CoachReport,
  pages: ReadonlySet<string>,
): Html {
  const by = who.kind === 'crew' && technician !== null ? ` · ${technician.name}` : '';
  return html`<li><div>${outcomeTag(outcome)}</div><div><h4>${jobLink(jobId, pages, '../')} · ${dayText(day)}${by}</h4><p>${outcome === 'missing' ? `No log by which ${checkWords(checkId)} could be judged.` : leadSentences(text, findingLength)}</p></div></li>`;
}

async function besideGood(
  pair: TopicPair,
  { who }: CoachReport,
  units: UnitSystem,
  charts: PageCharts,
): Promise<Html | false> {
  const figures = await pairFigures(pair, who, units, charts);
  return figures !== false && html`<h3>Beside one without it</h3>${figures}`;
}
