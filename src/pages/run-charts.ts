import { pageColours } from '../charts/chart-colours.ts';
import type { SaturationGap } from '../charts/run-recording.ts';
import { runTrace } from '../charts/run-trace.ts';
import {
  durationText,
  gaugePressureText,
  temperatureChangeText,
  temperatureText,
  type UnitSystem,
} from '../units/display.ts';
import { rangeText } from '../units/range-text.ts';
import type { KeyEntry } from './chart-key.ts';
import { type Html, html } from './html.ts';
import { namedId } from './named-id.ts';
import type { PageCharts } from './page-charts.ts';
import type { RunEvidence, RunMeans } from './job-evidence-data.ts';

/** Height of the chart with axes and labels [px]. */
const heightPx = 328;

/** The chart of a job's run test: how far the lines were from saturation; the means as a table. */
export async function runCharts(
  jobId: string,
  run: RunEvidence,
  units: UnitSystem,
  charts: PageCharts,
): Promise<Html | null> {
  const chart = runTrace(run.trace, { ...run, units, colours: pageColours });
  if (chart === null) return null;
  const key = keyOfRun(run, units);
  return charts.figure({
    name: 'run-trace',
    subject: namedId('Job', jobId),
    title: 'How far were the lines from saturation?',
    note: units === 'ip' ? '°F' : '°C',
    chart,
    description: `${namedId('Job', jobId)}: run test over time. ${key.map(({ text }) => text).join('; ')}.`,
    heightPx,
    key,
    below: run.means !== null && meansTable(jobId, run, run.means, units),
  });
}

function keyOfRun(run: RunEvidence, units: UnitSystem): KeyEntry[] {
  const { trace, startS, steady, superheat, subcooling, isTwoPhase, means } = run;
  const isRead = (curve: readonly (number | null)[]) => curve.some((k) => k !== null);
  const entries: KeyEntry[] = [];
  if (isRead(trace.suctionLineK)) entries.push({ mark: 'readings', text: 'suction line' });
  if (isRead(trace.dewK)) entries.push({ mark: 'accent-dashed', text: 'dew point' });
  if (superheat !== null)
    entries.push({ mark: 'accent-gap', text: gapText('superheat', superheat, means?.targetSuperheatK ?? null, units) });
  if (isRead(trace.liquidLineK)) entries.push({ mark: 'ink', text: 'liquid line' });
  if (isRead(trace.bubbleK)) entries.push({ mark: 'ink-dashed', text: 'bubble point' });
  if (subcooling !== null)
    entries.push({ mark: 'ink-gap', text: gapText('subcooling', subcooling, means?.targetSubcoolingK ?? null, units) });
  if (startS !== null && startS > 0) entries.push({ mark: 'start', text: 'the run began' });
  entries.push(
    steady === null
      ? { mark: 'none', text: 'no steady stretch to judge by' }
      : { mark: 'grey-band', text: `steady, judged: ${durationText(steady.endS - steady.startS)}` },
  );
  if (isTwoPhase)
    entries.push({
      mark: 'none',
      text: 'metering device outdoors: the liquid line carries vapour too, and is left out',
    });
  return entries;
}

function gapText(name: string, { k, lowK, highK }: SaturationGap, targetK: number | null, units: UnitSystem): string {
  const target = targetK === null ? '' : `; target ${temperatureChangeText(targetK, units)}`;
  return `${name}: ${temperatureChangeText(k, units)} (${intervalText({ lowK, highK }, units)}, 95 %)${target}`;
}

function intervalText({ lowK, highK }: Pick<SaturationGap, 'lowK' | 'highK'>, units: UnitSystem): string {
  return rangeText(temperatureChangeText(lowK, units), temperatureChangeText(highK, units));
}

interface MeanRow {
  readonly what: string;
  readonly mean: string | null;
  readonly interval?: string;
  readonly target?: string | null;
}

/** What was read over the steady stretch, and what follows from it. */
function meansTable(jobId: string, run: RunEvidence, means: RunMeans, units: UnitSystem): Html {
  const pressure = (pa: number | null) => (pa === null ? null : gaugePressureText(pa, run.atmospherePa, units));
  const temperature = (k: number | null) => (k === null ? null : temperatureText(k, units));
  const change = (k: number | null) => (k === null ? null : temperatureChangeText(k, units));
  const gap = (what: string, value: SaturationGap | null, targetK: number | null): MeanRow => ({
    what,
    mean: change(value?.k ?? null),
    interval: value === null ? '' : intervalText(value, units),
    target: change(targetK),
  });
  const liquidSide: MeanRow[] = run.isTwoPhase
    ? []
    : [
        { what: 'liquid pressure', mean: pressure(means.liquidPa) },
        { what: 'bubble point', mean: temperature(means.bubbleK) },
        { what: 'liquid line', mean: temperature(means.liquidLineK) },
        gap('subcooling', run.subcooling, means.targetSubcoolingK),
      ];
  const rows: MeanRow[] = [
    { what: 'suction pressure', mean: pressure(means.suctionPa) },
    { what: 'dew point', mean: temperature(means.dewK) },
    { what: 'suction line', mean: temperature(means.suctionLineK) },
    gap('superheat', run.superheat, means.targetSuperheatK),
    ...liquidSide,
    { what: 'outdoor air', mean: temperature(means.outdoorK) },
    { what: 'returning air', mean: temperature(means.indoorK) },
    { what: 'returning air, wet bulb', mean: temperature(means.indoorWetBulbK) },
    { what: 'returning less supplied air', mean: change(means.splitK) },
    { what: 'compressor', mean: means.compressorW === null ? null : `${(means.compressorW / 1000).toFixed(2)} kW` },
  ];
  const read = rows.filter(({ mean }) => mean !== null);
  const hasTarget = read.some(({ target }) => target !== null && target !== undefined);
  return html`<details><summary>Steady run as a table</summary>
<div class="scroll" tabindex="0" role="region" aria-label="Steady run of ${namedId('job', jobId)}">
<table class="wrapped"><thead><tr><th scope="col">steady stretch</th><th scope="col">mean</th><th scope="col">95 %</th>${hasTarget && html`<th scope="col">target</th>`}</tr></thead>
<tbody>${read.map(
    ({ what, mean, interval = '', target = null }) =>
      html`<tr><th scope="row">${what}</th><td>${mean}</td><td class="range">${interval.replace(/ (?=\S+$)/, '\u00a0')}</td>${hasTarget && html`<td>${target}</td>`}</tr>`,
  )}</tbody></table></div></details>`;
}
