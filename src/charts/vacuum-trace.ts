import type { TopLevelSpec } from 'vega-lite';
import { vacuumText, type UnitSystem } from '../units/display.ts';
import { fromInterchange } from '../units/unit.ts';
import { type ChartColours, lightColours } from './chart-colours.ts';
import { chartConfig } from './chart-config.ts';
import { decadeAxis, decades } from './decades.ts';
import { emptyCorner } from './empty-corner.ts';
import { limitLines } from './limit-lines.ts';
import { limitWords } from './limit-words.ts';
import { minutes } from './minutes.ts';
import {
  isWithin,
  type PhaseSpan,
  type VacuumLimit,
  type VacuumRecording,
  type VacuumStall,
  type ValveOffRange,
} from './vacuum-recording.ts';

export interface VacuumTraceOptions {
  readonly phases: readonly PhaseSpan[];
  readonly limits: readonly VacuumLimit[];
  /** Where the falling pressure stood; null where it did not. */
  readonly stall?: VacuumStall | null;
  /** The times between which the valve was shut, where they are far apart; null where the valve-off is sharp. */
  readonly valveOff?: ValveOffRange | null;
  readonly units: UnitSystem;
  readonly colours?: ChartColours;
}

/** The axis reaches down to this at least where a reading is 0 or below: what a logarithm cannot show [Pa]. */
const FLOOR_PA = 0.1;

const HEIGHT_PX = 240;

/**
 * How did the vacuum go, from pull-down to the end of the isolation?
 *
 * Pressure on a logarithmic axis in microns (ip) or pascals (si) over minutes; phases shaded and named, the isolation
 * drawn stronger; limits as labelled lines; stretches above the gauge's range as a bar along the top. A stand of the
 * falling pressure is underlined, and a valve-off that is not sharp is a light band.
 *
 * @param recording at most some hundred readings: decimate before
 * @returns Vega-Lite specification; the line breaks where nothing was read
 */
export function vacuumTrace(recording: VacuumRecording, options: VacuumTraceOptions): TopLevelSpec {
  const { units, stall = null, valveOff = null, colours = lightColours } = options;
  const shown = (pa: number) => (units === 'ip' ? fromInterchange(pa, 'micron') : pa);
  const isolations = options.phases.filter((span) => span.phase === 'isolation');
  const values = recording.elapsedS.map((elapsedS, index) => {
    const pa = recording.over[index] ? null : (recording.vacuumPa[index] ?? null);
    const isolation = isolations.findIndex((span) => isWithin(elapsedS, span, options.phases));
    const row = { t: minutes(elapsedS), p: pa === null ? null : significant(shown(Math.max(pa, FLOOR_PA))) };
    return isolation < 0 ? row : { ...row, isolation };
  });
  const domain = decades([...values.map((row) => row.p), ...options.limits.map(({ pa }) => shown(pa))]);
  const [low, high] = domain.map(Math.log10) as [number, number];
  const heightOf = (p: number) => (HEIGHT_PX * (Math.log10(p) - low)) / (high - low);
  const phases = options.phases.map((span) => ({
    name: span.phase,
    from: minutes(span.startS),
    to: minutes(span.endS),
  }));
  const stalls =
    stall === null ? [] : [{ from: minutes(stall.startS), to: minutes(stall.endS), p: significant(shown(stall.pa)) }];
  const valveOffs = valveOff === null ? [] : [{ from: minutes(valveOff.lowS), to: minutes(valveOff.highS) }];
  const endMinutes = Math.max(1, ...values.map((row) => row.t), ...phases.map((span) => span.to));
  const curve = values.map(({ t, p }) => ({ across: t / endMinutes, heightPx: p === null ? null : heightOf(p) }));
  const limits = limitLines(options.limits, {
    pressureText: (pa) => vacuumText(pa, units),
    heightPx: (pa) => heightOf(shown(pa)),
    alone: () => 'above',
  }).map((line) => ({
    ...line,
    p: significant(shown(line.pa)),
    side: emptyCorner([curve], heightOf(shown(line.pa)), line.offsetPx < 0).side,
  }));
  const x = { type: 'quantitative' } as const;
  const spanWidth = "(scale('x', datum.to) - scale('x', datum.from))";
  const labelFits = `${spanWidth} > 6.2 * length(datum.name)`;
  const isIsolation = "datum.name === 'isolation'";
  // A narrow isolation still has its name: inside the plot, ending where the isolation ends.
  const labelInside = `${isIsolation} && !(${labelFits})`;
  const limit = limitWords(colours);
  return {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    width: 'container',
    height: HEIGHT_PX,
    layer: [
      {
        data: { name: 'phases', values: phases },
        mark: {
          type: 'rect',
          color: { expr: `${isIsolation} ? '${colours.accent}' : '${colours.muted}'` },
          opacity: { expr: "{'pull-down': 0, hold: 0.1, isolation: 0.16, break: 0.2}[datum.name]" },
        },
        encoding: {
          x: {
            ...x,
            field: 'from',
            title: 'minutes since the vacuum log began',
            scale: { domain: [0, endMinutes], nice: false },
            axis: { grid: false, tickCount: { expr: 'max(3, width / 90)' } },
          },
          x2: { field: 'to' },
        },
      },
      {
        data: { name: 'phases' },
        mark: {
          type: 'text',
          align: { expr: `${labelInside} ? 'right' : 'center'` },
          baseline: 'bottom',
          dx: { expr: `${labelInside} ? ${spanWidth} / 2 : 0` },
          dy: { expr: `${labelInside} ? 24 : -5` },
          fontSize: 11,
          fontWeight: { expr: `${isIsolation} ? 'bold' : 'normal'` },
          color: { expr: `${isIsolation} ? '${colours.accent}' : '${colours.muted}'` },
          opacity: { expr: `${labelFits} || ${isIsolation} ? 1 : 0` },
        },
        transform: [{ calculate: '(datum.from + datum.to) / 2', as: 'middle' }],
        encoding: { x: { ...x, field: 'middle' }, y: { value: 0 }, text: { field: 'name', type: 'nominal' } },
      },
      {
        data: { name: 'valve-off', values: valveOffs },
        mark: { type: 'rect', color: colours.accent, opacity: 0.1, stroke: colours.accent, strokeDash: [2, 2] },
        encoding: { x: { ...x, field: 'from' }, x2: { field: 'to' } },
      },
      {
        data: { name: 'limits', values: limits },
        mark: { type: 'rule', color: colours.fail, strokeWidth: 1.25, strokeDash: [6, 3] },
        encoding: { y: { field: 'p', type: 'quantitative' } },
      },
      limit.halo,
      {
        data: { name: 'over', values: overStretches(recording) },
        mark: { type: 'rule', color: colours.suspect, strokeWidth: 6 },
        encoding: { x: { ...x, field: 'from' }, x2: { field: 'to' }, y: { value: 3 } },
      },
      {
        data: { name: 'readings', values },
        mark: { type: 'line', color: colours.ink, strokeWidth: 1.5, interpolate: 'linear' },
        encoding: {
          x: { ...x, field: 't' },
          y: {
            field: 'p',
            type: 'quantitative',
            title: null,
            scale: { type: 'log', domain, nice: false },
            axis: decadeAxis,
          },
        },
      },
      {
        data: { name: 'readings' },
        transform: [{ filter: 'isValid(datum.isolation)' }],
        mark: { type: 'line', color: colours.accent, strokeWidth: 3.5, strokeCap: 'round' },
        encoding: { x: { ...x, field: 't' }, y: { field: 'p', type: 'quantitative' }, detail: { field: 'isolation' } },
      },
      {
        data: { name: 'stall', values: stalls },
        mark: { type: 'rule', color: colours.ink, strokeWidth: 5, yOffset: 9 },
        encoding: { x: { ...x, field: 'from' }, x2: { field: 'to' }, y: { field: 'p', type: 'quantitative' } },
      },
      limit.words,
    ],
    config: chartConfig(colours),
  };
}

const significant = (value: number) => Number(value.toPrecision(4));

/** Stretches of neighbouring readings above the gauge's range. */
function overStretches(recording: VacuumRecording): { from: number; to: number }[] {
  const stretches: { from: number; to: number }[] = [];
  recording.elapsedS.forEach((elapsedS, index) => {
    if (!recording.over[index]) return;
    const last = stretches.at(-1);
    if (index > 0 && recording.over[index - 1] && last !== undefined) last.to = minutes(elapsedS);
    else stretches.push({ from: minutes(elapsedS), to: minutes(elapsedS) });
  });
  return stretches;
}
