import type { TopLevelSpec } from 'vega-lite';
import { vacuumText, type UnitSystem } from '../units/display.ts';
import { fromInterchange } from '../units/unit.ts';
import { type ChartColours, lightColours } from './chart-colours.ts';
import { chartConfig } from './chart-config.ts';
import { emptyCorner } from './empty-corner.ts';
import { type FittedRise, steadyEnd } from './fitted-rise.ts';
import { limitLines } from './limit-lines.ts';
import { limitWords } from './limit-words.ts';
import { minutes } from './minutes.ts';
import { isWithin, type PhaseSpan, type VacuumLimit, type VacuumRecording } from './vacuum-recording.ts';

export interface RiseTraceOptions {
  /** The isolation to show; null for none. */
  readonly isolation: PhaseSpan | null;
  /** All phases of the recording. */
  readonly phases: readonly PhaseSpan[];
  /** Those of the rise are drawn. */
  readonly limits: readonly VacuumLimit[];
  /** What was fitted to that isolation; null where nothing was. */
  readonly fitted?: FittedRise | null;
  readonly units: UnitSystem;
  readonly colours?: ChartColours;
}

/** How far a rise chart reaches, and what it therefore leaves out. */
export interface RiseReach {
  /** Upper end of the axis [Pa]. */
  readonly topPa: number;
  /** Its right end: the isolation's, or when the limit counts where the isolation ended soon before [s]. */
  readonly endS: number;
  /** Limits far above the readings. */
  readonly limitsAbove: readonly VacuumLimit[];
  readonly showsPlateau: boolean;
}

const HEIGHT_PX = 240;
/** What lies so many times above the readings is left out: it would press them flat. */
const FAR = 2.5;
/** A test that ended before the limit counts is drawn up to there where it lasted for this share of that time. */
const NEARLY = 0.5;

/**
 * The reach of a rise chart.
 *
 * @returns null where there is no isolation, where fewer than three readings fall into it, or where all of them are 0
 */
export function riseReach(recording: VacuumRecording, options: RiseTraceOptions): RiseReach | null {
  const { isolation, phases, limits, fitted } = options;
  if (isolation === null) return null;
  const read = readingsIn(recording, isolation, phases).flatMap(({ pa }) => (pa === null ? [] : [pa]));
  if (read.length < 3 || !read.some((pa) => pa > 0)) return null;
  const ofRise = limits.filter((limit) => limit.of === 'rise');
  const largestPa = Math.max(...read);
  const isNear = ({ pa }: { readonly pa: number }) => pa <= FAR * largestPa;
  const plateau = fitted?.plateau ?? null;
  const showsPlateau = plateau !== null && isNear(plateau);
  const shown = [...ofRise.filter(isNear), ...(showsPlateau ? [plateau] : [])];
  const lastedS = isolation.endS - isolation.startS;
  const countsAtS = Math.max(0, ...ofRise.filter(isNear).map((limit) => limit.countsAtS ?? 0));
  return {
    topPa: 1.12 * Math.max(largestPa, ...shown.map(({ pa }) => pa)),
    endS: Math.max(6, lastedS, lastedS >= NEARLY * countsAtS ? countsAtS : 0),
    limitsAbove: ofRise.filter((limit) => !isNear(limit)),
    showsPlateau,
  };
}

/**
 * How did the pressure rise once the system was valved off, and how much of that was steady?
 *
 * The isolation alone, on a linear axis from zero, where a straight rise looks straight and a rise that levels off
 * looks so too: a logarithmic axis over the whole job hides both. The readings thick, the fitted rise thin on them; from
 * its start the steady part as a dashed line in the wedge of its 95 % interval, so that the gap between that line and
 * the curve is what slackened. The limit is drawn up to when it counts. The level that the slackening part heads for is
 * a faint band. Limits and levels far above the readings are left out (`riseReach` tells which).
 *
 * @param recording the whole job's recording
 * @returns Vega-Lite specification, or null where `riseReach` is
 */
export function riseTrace(recording: VacuumRecording, options: RiseTraceOptions): TopLevelSpec | null {
  const { isolation, phases, units, fitted = null, colours = lightColours } = options;
  const reach = riseReach(recording, options);
  if (isolation === null || reach === null) return null;
  const { topPa, endS, showsPlateau } = reach;
  const shown = (pa: number) => Number((units === 'ip' ? fromInterchange(pa, 'micron') : pa).toPrecision(4));
  const readings = readingsIn(recording, isolation, phases);
  const values = readings.map(({ elapsedS, pa }) => ({
    t: minutes(elapsedS - isolation.startS),
    p: pa === null ? null : shown(pa),
  }));
  const near = options.limits.filter((limit) => limit.of === 'rise' && !reach.limitsAbove.includes(limit));
  const heightPx = (pa: number) => (HEIGHT_PX * pa) / topPa;
  const steady = fitted === null ? [] : steadyRows(fitted, topPa);
  const curves = [
    readings.map(({ elapsedS, pa }) => ({
      across: (elapsedS - isolation.startS) / endS,
      heightPx: pa === null ? null : heightPx(pa),
    })),
    steady.map(({ sinceS, pa }) => ({ across: sinceS / endS, heightPx: heightPx(pa) })),
  ];
  const limits = limitLines(near, {
    pressureText: (pa) => vacuumText(pa, units),
    heightPx,
    alone: (pa) => (emptyCorner(curves, heightPx(pa)).isAbove ? 'above' : 'below'),
  }).map((line) => {
    const countsAtS = near.find(({ pa }) => pa === line.pa)?.countsAtS ?? isolation.endS - isolation.startS;
    return {
      ...line,
      p: shown(line.pa),
      from: 0,
      until: minutes(Math.min(endS, countsAtS)),
      counts: countsAtS <= endS,
      side: emptyCorner(curves, heightPx(line.pa), line.offsetPx < 0).side,
    };
  });
  const limit = limitWords(colours);
  const x = { field: 't', type: 'quantitative' } as const;
  const y = { field: 'p', type: 'quantitative' } as const;
  return {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    width: 'container',
    height: HEIGHT_PX,
    layer: [
      {
        data: { name: 'plateau', values: showsPlateau ? plateauRows(fitted, topPa, shown) : [] },
        mark: { type: 'rect', color: colours.accent, opacity: 0.13 },
        encoding: { y: { field: 'low', type: 'quantitative' }, y2: { field: 'high' } },
      },
      {
        data: { name: 'steady', values: steady.map((row) => wedgeRow(row, shown)) },
        mark: { type: 'area', color: colours.muted, opacity: 0.2 },
        encoding: { x, y: { field: 'low', type: 'quantitative' }, y2: { field: 'high' } },
      },
      {
        data: { name: 'limits', values: limits },
        mark: { type: 'rule', color: colours.fail, strokeWidth: 1.25, strokeDash: [6, 3] },
        encoding: { x: { field: 'from', type: 'quantitative' }, x2: { field: 'until' }, y },
      },
      {
        data: { name: 'limits' },
        transform: [{ filter: 'datum.counts' }],
        mark: { type: 'point', filled: true, shape: 'diamond', size: 44, color: colours.fail, opacity: 1 },
        encoding: { x: { field: 'until', type: 'quantitative' }, y },
      },
      limit.halo,
      {
        data: { name: 'readings', values },
        mark: { type: 'line', color: colours.accent, strokeWidth: 3, strokeCap: 'round', strokeJoin: 'round' },
        encoding: {
          x: {
            ...x,
            title: 'minutes since valve-off',
            scale: { domain: [0, minutes(endS)], nice: false },
            axis: { grid: false, tickCount: { expr: 'max(3, width / 80)' } },
          },
          y: {
            ...y,
            title: null,
            scale: { domain: [0, shown(topPa)], nice: false },
            axis: { tickCount: 5, labelExpr: "join(split(format(datum.value, ',~f'), ','), ' ')" },
          },
        },
      },
      {
        data: { name: 'fitted', values: fitted === null ? [] : fittedRows(fitted, topPa, shown) },
        mark: { type: 'line', color: colours.ink, strokeWidth: 1.25 },
        encoding: { x, y },
      },
      {
        data: { name: 'steady' },
        mark: { type: 'line', color: colours.ink, strokeWidth: 1.25, strokeDash: [3, 3] },
        encoding: { x, y },
      },
      limit.words,
    ],
    config: chartConfig(colours),
  };
}

function readingsIn(
  recording: VacuumRecording,
  isolation: PhaseSpan,
  phases: readonly PhaseSpan[],
): { elapsedS: number; pa: number | null }[] {
  return recording.elapsedS
    .map((elapsedS, index) => ({ elapsedS, pa: recording.over[index] ? null : (recording.vacuumPa[index] ?? null) }))
    .filter(({ elapsedS }) => isWithin(elapsedS, isolation, phases));
}

function fittedRows({ sinceS, fittedPa }: FittedRise, topPa: number, shown: (pa: number) => number) {
  return sinceS
    .map((since, index) => ({ since, pa: fittedPa[index] ?? 0 }))
    .filter(({ pa }) => pa <= topPa)
    .map(({ since, pa }) => ({ t: minutes(since), p: shown(pa) }));
}

/** The steady part with its interval, at its start, where an edge leaves the chart, and at its end. */
function steadyRows(fitted: FittedRise, topPa: number) {
  const endS = fitted.sinceS.at(-1) ?? 0;
  const [likely, low, high] = [fitted.leakPaPerS, fitted.leakLowPaPerS, fitted.leakHighPaPerS].map(
    (rate) => (untilS: number) => steadyEnd(fitted, rate, untilS, topPa),
  );
  const times = new Set([0, endS, likely(endS).sinceS, low(endS).sinceS, high(endS).sinceS]);
  return [...times]
    .toSorted((a, b) => a - b)
    .map((sinceS) => ({ sinceS, pa: likely(sinceS).pa, lowPa: low(sinceS).pa, highPa: high(sinceS).pa }));
}

function wedgeRow({ sinceS, pa, lowPa, highPa }: ReturnType<typeof steadyRows>[number], shown: (pa: number) => number) {
  return { t: minutes(sinceS), p: shown(pa), low: shown(lowPa), high: shown(highPa) };
}

function plateauRows(fitted: FittedRise | null, topPa: number, shown: (pa: number) => number) {
  const plateau = fitted?.plateau;
  if (plateau === null || plateau === undefined) return [];
  return [{ low: shown(plateau.lowPa), high: shown(Math.min(topPa, plateau.highPa ?? topPa)) }];
}
