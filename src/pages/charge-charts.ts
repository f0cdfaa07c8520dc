import { pageColours } from '../charts/chart-colours.ts';
import type { DrawnFlow, ScaleMove } from '../charts/scale-recording.ts';
import { type ScaleReach, scaleReach, scaleTrace } from '../charts/scale-trace.ts';
import { durationText, massText, type UnitSystem } from '../units/display.ts';
import { rangeText } from '../units/range-text.ts';
import type { KeyEntry } from './chart-key.ts';
import { type Html, html } from './html.ts';
import { namedId } from './named-id.ts';
import type { PageCharts } from './page-charts.ts';
import type { ScaleEvidence } from './job-evidence-data.ts';

/** Height of the chart with axes and labels [px]. */
const heightPx = 284;

const unitWords = { oz: 'ounces', lb: 'pounds', g: 'grams', kg: 'kilograms' };

/** The chart of a job's weigh-in: how much left the cylinder; what happened on the scale as a table. */
export async function chargeCharts(
  jobId: string,
  scale: ScaleEvidence,
  units: UnitSystem,
  charts: PageCharts,
): Promise<Html | null> {
  const { moves, flow } = scale;
  const reach = scaleReach(scale, { flow, units });
  const chart = scaleTrace(scale, { moves, flow, units, colours: pageColours });
  if (reach === null || chart === null) return null;
  const key = keyOfScale(scale, reach, units);
  return charts.figure({
    name: 'scale-trace',
    subject: namedId('Job', jobId),
    title: 'How much left the cylinder?',
    note: `${unitWords[reach.unit]}, by the scale`,
    chart,
    description: `${namedId('Job', jobId)}: mass that left the cylinder over time. ${key.map(({ text }) => text).join('; ')}.`,
    heightPx,
    key,
    below: weighInTable(jobId, scale, units),
  });
}

function keyOfScale({ moves, flow, counted }: ScaleEvidence, reach: ScaleReach, units: UnitSystem): KeyEntry[] {
  const taken = moves.filter(({ isFlow }) => !isFlow);
  const doubtful = moves.filter(({ isFlow }) => isFlow);
  const entries: KeyEntry[] =
    flow === null
      ? [{ mark: 'readings', text: 'what the scale fell by' }]
      : [
          { mark: 'readings', text: `left the cylinder: ${flowText(flow, units)}` },
          { mark: 'accent-band', text: `flow: ${durationText(flow.endS - flow.startS)}` },
          { mark: 'stall', text: 'scale at rest before and after' },
        ];
  if (taken.length > 0)
    entries.push(
      { mark: 'grey-band', text: `scale moved, taken out: ${timesText(taken, units)}` },
      { mark: 'fine', text: `as read${reach.leaves ? ', as far as it fits' : ''}` },
    );
  if (doubtful.length > 0)
    entries.push({
      mark: 'valve-off',
      text: `so sudden that a hand or a hose may have done it: ${timesText(doubtful, units)}, counted as flow here`,
    });
  if (flow === null) entries.push({ mark: 'none', text: 'how much flowed cannot be told from these readings' });
  if (counted !== null) {
    const judged = `the charge was judged by ${massText(counted.kg, units)}`;
    const why = counted.isScale ? 'the rest is not in what was written down' : 'as it was written down';
    entries.push({ mark: 'none', text: `${judged}: ${why}` });
  }
  return entries;
}

function flowText({ kg, lowKg, highKg }: DrawnFlow, units: UnitSystem): string {
  return `${massText(kg, units)} (${rangeText(massText(lowKg, units), massText(highKg, units))}, 95 %)`;
}

/** How often, and how far at most. */
function timesText(moves: readonly ScaleMove[], units: UnitSystem): string {
  const most = massText(Math.max(...moves.map(({ asideKg }) => asideKg)), units);
  if (moves.length === 1) return `once, by ${most}`;
  return `${moves.length === 2 ? 'twice' : `${moves.length} times`}, by up to ${most}`;
}

/** What happened on the scale, in the order of time. */
function weighInTable(jobId: string, { moves, flow, beforeKg }: ScaleEvidence, units: UnitSystem): Html {
  const rows = [
    ...(flow === null
      ? []
      : [
          { ...flow.before, what: 'at rest before', mass: massText(beforeKg, units) },
          { startS: flow.startS, endS: flow.endS, what: 'left the cylinder', mass: massText(flow.kg, units) },
          { ...flow.after, what: 'at rest after', mass: massText(beforeKg - flow.kg, units) },
        ]),
    ...moves.map((move) => ({ startS: move.startS, endS: move.endS, ...moveText(move, units) })),
  ].toSorted((a, b) => a.startS - b.startS);
  if (rows.length === 0) return html``;
  const minutes = (atS: number) => (atS / 60).toFixed(1);
  return html`<details><summary>Weigh-in as a table</summary>
<div class="scroll" tabindex="0" role="region" aria-label="Weigh-in of ${namedId('job', jobId)}">
<table class="wrapped"><thead><tr><th scope="col">what</th><th scope="col">minutes</th><th scope="col">mass</th></tr></thead>
<tbody>${rows.map(
    ({ what, startS, endS, mass }) =>
      html`<tr><th scope="row">${what}</th><td>${rangeText(minutes(startS), minutes(endS))}</td><td>${mass}</td></tr>`,
  )}</tbody></table></div>${moves.some(({ shiftKg, isFlow }) => shiftKg !== 0 && !isFlow) && html`<p class="quiet">Readings after a move that stayed are given as if it had not been.</p>`}</details>`;
}

function moveText({ shiftKg, asideKg, isFlow }: ScaleMove, units: UnitSystem): { what: string; mass: string } {
  if (isFlow) return { what: 'fell at once, counted as flow', mass: massText(-shiftKg, units) };
  if (shiftKg === 0) return { what: 'moved and came back', mass: `by ${massText(asideKg, units)}` };
  return { what: 'moved and stayed', mass: `by ${massText(shiftKg, units)}` };
}
