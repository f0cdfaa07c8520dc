import { pageColours } from '../charts/chart-colours.ts';
import { type PlanCurves, planChart } from '../charts/plan-chart.ts';
import type { PlanAnswer } from '../facts/plan/plan-answer.ts';
import { mostLengthS } from '../facts/plan/shortest-length.ts';
import { type UnitSystem, yearlyLossText } from '../units/display.ts';
import type { KeyEntry } from './chart-key.ts';
import { type Html, html } from './html.ts';
import type { PageCharts } from './page-charts.ts';
import type { PageContent, Reader } from './page-content.ts';
import { type AssumedSettings, planNotes } from './plan-notes.ts';
import { planAnswer } from '../facts/plan/plan-answer.ts';
import type { TestPlan } from '../facts/plan/test-plan.ts';
import { planQuestionText } from './plan-question-text.ts';
import { narrowTables, type PlanTable, planTables, testNames } from './plan-tables.ts';

/** What the page of a plan tells. */
export interface PlanPageData {
  readonly plan: TestPlan;
  readonly answer: PlanAnswer;
  readonly assumed: AssumedSettings;
  /** A leak that was asked for [kg/year]. */
  readonly lossKgPerYear?: number | undefined;
}

/** The chart reaches from so many seconds to a day, or to all that a leak was sought in. */
const shortestS = 300;
const usualS = 86_400;
/** It is drawn by so many lengths. */
const points = 61;

/**
 * The page of a plan: how small a leak each test sees by its length, as a chart and as tables.
 */
export function planPage(data: PlanPageData, reader: Reader): PageContent {
  const { plan, answer, lossKgPerYear } = data;
  return {
    title: 'Plan of a leak test',
    description: planQuestionText(plan, answer, lossKgPerYear, reader.units),
    reader,
    body: (units, charts) => body(data, units, charts),
  };
}

async function body(data: PlanPageData, units: UnitSystem, charts: PageCharts): Promise<Html> {
  const { plan, answer, assumed, lossKgPerYear } = data;
  const question = planQuestionText(plan, answer, lossKgPerYear, units);
  const { meaning, trust, basis, cautions } = planNotes(plan, answer, assumed, units);
  const tables = planTables(plan, answer, units, lossKgPerYear);
  const ladders = tables.slice(answer.needed === undefined ? 0 : 1);
  return html`<div class="page"><header><h1>${question}</h1>
<p class="lead">${meaning[0] ?? ''}</p></header>
<main>
${answer.needed !== undefined && tables.slice(0, 1).map(tableHtml)}
<div class="pair">${await chartHtml(data, units, charts)}</div>
<div class="multiples">${ladders.flatMap(narrowTables).map(tableHtml)}</div>
${trust.length > 0 && html`<h2>Which test to trust</h2>${trust.map((note) => html`<p>${note}</p>`)}`}
<h2>What the figures mean and rest on</h2>
<ul class="notes">${[...meaning.slice(1), ...basis].map((note) => html`<li>${note}</li>`)}</ul>
<section class="caution" aria-labelledby="cautions"><h2 id="cautions">Cautions</h2>
<ul class="notes">${cautions.map((note) => html`<li>${note}</li>`)}</ul></section>
</main></div>`;
}

function tableHtml({ title, heads, rows }: PlanTable): Html {
  return html`<div><table><caption>${unbroken(title)}</caption><thead><tr>${heads.map((head) => html`<th scope="col">${head}</th>`)}</tr></thead>
<tbody>${rows.map(
    ([first = '', ...cells]) =>
      html`<tr><th scope="row">${unbroken(first)}</th>${cells.map((cell) => html`<td>${unbroken(cell)}</td>`)}</tr>`,
  )}</tbody></table></div>`;
}

/** A text in which no figure stands without its unit on a line. */
function unbroken(text: string): string {
  return text.replace(/(?<=\d) (?!to\b)|(?<=\d bar) (?=gauge\b)/g, '\u00a0');
}

async function chartHtml(
  { plan, answer, lossKgPerYear }: PlanPageData,
  units: UnitSystem,
  charts: PageCharts,
): Promise<Html | false> {
  const chart = planChart(planCurves(plan, answer), {
    lossKgPerYear: lossKgPerYear ?? null,
    units,
    colours: pageColours,
  });
  if (chart === null) return false;
  const description = 'Smallest loss in a year that each test sees, by the length of the test.';
  return charts.figure({
    name: 'plan-chart',
    title: 'How small a leak does a test see, by its length?',
    note: 'Loss in a year, from least to most over the sorts of opening that a leak may be',
    chart,
    description,
    figuresAt: 'The tables hold figures.',
    heightPx: 370,
    key: keyEntries(plan, lossKgPerYear, units),
  });
}

function keyEntries(plan: TestPlan, lossKgPerYear: number | undefined, units: UnitSystem): KeyEntry[] {
  const { pressure, rise } = testNames(plan, units);
  return [
    ...(plan.pressureTest ? [{ mark: 'accent-band', text: pressure } as const] : []),
    ...(plan.riseTest
      ? ([
          { mark: 'grey-band', text: `${rise}: told for a leak` },
          { mark: 'dashed', text: `${rise}: shows at all` },
        ] as const)
      : []),
    ...(lossKgPerYear === undefined
      ? []
      : [{ mark: 'asked', text: `${yearlyLossText(lossKgPerYear, units)} a year, as asked for` } as const]),
  ];
}

/** The curves of a chart, over all lengths that the answer tells of. */
function planCurves(plan: TestPlan, { needed, pressureRows, riseRows }: PlanAnswer): PlanCurves {
  const told = [...pressureRows, ...riseRows].map(({ durationS }) => durationS);
  const fromS = Math.min(shortestS, ...told);
  const toS = Math.max(usualS, ...told, needed === undefined ? 0 : mostLengthS);
  const durationsS = Array.from({ length: points }, (_, index) =>
    Math.round(fromS * (toS / fromS) ** (index / (points - 1))),
  );
  const curves = planAnswer(plan, { durationsS });
  const riseCurve = (which: 'shown' | 'told') =>
    curves.riseRows.flatMap(({ durationS, [which]: climb }) => (climb === undefined ? [] : [{ durationS, ...climb }]));
  return { pressureTest: curves.pressureRows, riseShown: riseCurve('shown'), riseTold: riseCurve('told') };
}
