import type { TopLevelSpec } from 'vega-lite';
import { temperatureChangeText, type UnitSystem } from '../units/display.ts';
import { fromInterchange } from '../units/unit.ts';
import { type ChartColours, lightColours } from './chart-colours.ts';
import { chartConfig } from './chart-config.ts';
import { chartTime } from './chart-time.ts';
import type { RunRecording, SaturationGap, SteadySpan } from './run-recording.ts';

export interface RunTraceOptions {
  /** When the last run began [s]; null where that was not seen. */
  readonly startS: number | null;
  /** Null where nothing was steady. */
  readonly steady: SteadySpan | null;
  /** Null where they cannot be told. */
  readonly superheat: SaturationGap | null;
  readonly subcooling: SaturationGap | null;
  readonly units: UnitSystem;
  readonly colours?: ChartColours;
}

const HEIGHT_PX = 270;
/** The axis spans so much at least [K]. */
const LEAST_SPAN_K = 12;
/** Room for the words of a gap. */
const EDGE_RATIO = 0.1;

/**
 * How far were the lines from saturation?
 *
 * Temperatures over minutes, in °F (ip) or °C (si). Of the suction side the dew point, dashed, and the line, thick; of the
 * liquid side the bubble point and the line, in another colour: the shaded gap within a pair is superheat and subcooling. The
 * steady stretch that is judged is a band, the start of the run a dashed line. What was not read is not there.
 *
 * @param recording at most some hundred readings: decimate before
 * @returns Vega-Lite specification, or null where fewer than three readings of any of the four are there
 */
export function runTrace(recording: RunRecording, options: RunTraceOptions): TopLevelSpec | null {
  const { startS, steady, superheat, subcooling, units, colours = lightColours } = options;
  const { elapsedS, dewK, suctionLineK, bubbleK, liquidLineK } = recording;
  const curves = [dewK, suctionLineK, bubbleK, liquidLineK];
  if (!curves.some((curve) => curve.filter((k) => k !== null).length >= 3)) return null;
  const shown = (k: number) =>
    Number((units === 'ip' ? fromInterchange(k - 273.15, 'F') : k - 273.15).toFixed(units === 'ip' ? 2 : 3));
  const shownOr = (k: number | null | undefined) => (k === null || k === undefined ? null : shown(k));
  const endS = Math.max(6, elapsedS.at(-1) ?? 0);
  const time = chartTime(endS);
  const values = elapsedS.map((atS, index) => ({
    t: time.of(atS),
    dew: shownOr(dewK[index]),
    suction: shownOr(suctionLineK[index]),
    bubble: shownOr(bubbleK[index]),
    liquid: shownOr(liquidLineK[index]),
  }));
  const domain = spanOf(curves.flatMap((curve) => curve.filter((k) => k !== null))).map(shown);
  const gaps =
    steady === null
      ? []
      : [...gapRows('superheat', superheat, units, shown), ...gapRows('subcooling', subcooling, units, shown)].map(
          (gap) => ({ ...gap, at: time.of((steady.startS + steady.endS) / 2) }),
        );
  const x = { field: 't', type: 'quantitative' } as const;
  const data = { name: 'readings' } as const;
  const yOf = (field: 'dew' | 'suction' | 'bubble' | 'liquid') => ({ field, type: 'quantitative' }) as const;
  const between = (from: 'dew' | 'bubble', to: 'suction' | 'liquid', color: string, of: Rows = data) => ({
    data: of,
    transform: [{ filter: `isValid(datum.${from}) && isValid(datum.${to})` }],
    mark: { type: 'area' as const, color, opacity: 0.13 },
    encoding: { x, y: yOf(from), y2: { field: to } },
  });
  const saturation = { type: 'line' as const, strokeWidth: 1.5, strokeDash: [5, 3] };
  const line = { type: 'line', strokeWidth: 2.75, strokeCap: 'round', strokeJoin: 'round' } as const;
  const [halfPx, barPx] = ['(3.6 * length(datum.text))', "scale('x', datum.at)"];
  const words = {
    type: 'text',
    align: 'center',
    dy: { expr: 'datum.offsetPx' },
    // Over the bar, unless that is too near an end of the chart.
    dx: { expr: `max(${halfPx} - ${barPx}, min(0, width - ${halfPx} - ${barPx}))` },
    fontSize: 12,
    fontWeight: 'bold',
  } as const;
  const halo = { stroke: colours.paper, strokeWidth: 4, strokeJoin: 'round', color: colours.paper } as const;
  const wordsAt = {
    x: { field: 'at', type: 'quantitative' },
    y: { field: 'edge', type: 'quantitative' },
    text: { field: 'text', type: 'nominal' },
  } as const;
  const isSuperheat = "datum.name === 'superheat'";
  const gapColour = { expr: `${isSuperheat} ? '${colours.accent}' : '${colours.ink}'` };
  const steadyName = 'steady, judged';
  return {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    width: 'container',
    height: HEIGHT_PX,
    layer: [
      {
        data: {
          name: 'steady',
          values: steady === null ? [] : [{ from: time.of(steady.startS), to: time.of(steady.endS) }],
        },
        mark: { type: 'rect', color: colours.muted, opacity: 0.13 },
        encoding: {
          x: {
            field: 'from',
            type: 'quantitative',
            title: `${time.unit} of the run’s log`,
            scale: { domain: [0, time.of(endS)], nice: false },
            axis: { grid: false, tickCount: { expr: 'max(3, width / 80)' } },
          },
          x2: { field: 'to' },
        },
      },
      {
        data: { name: 'steady' },
        transform: [{ calculate: '(datum.from + datum.to) / 2', as: 'middle' }],
        mark: {
          type: 'text',
          baseline: 'bottom',
          dy: -5,
          fontSize: 11,
          fontWeight: 'bold',
          color: colours.muted,
          opacity: { expr: `(scale('x', datum.to) - scale('x', datum.from)) > ${6.4 * steadyName.length} ? 1 : 0` },
        },
        encoding: {
          x: { field: 'middle', type: 'quantitative' },
          y: { value: 0 },
          text: { value: steadyName },
        },
      },
      {
        data: { name: 'start', values: startS === null || startS <= 0 ? [] : [{ t: time.of(startS) }] },
        mark: { type: 'rule', color: colours.muted, strokeWidth: 1.25, strokeDash: [3, 3] },
        encoding: { x },
      },
      between('dew', 'suction', colours.accent, { ...data, values }),
      between('bubble', 'liquid', colours.ink),
      {
        data,
        mark: { ...saturation, color: colours.accent },
        encoding: {
          x,
          y: {
            ...yOf('dew'),
            title: null,
            scale: { domain, nice: false, zero: false },
            axis: { tickCount: 6, labelExpr: "replace(format(datum.value, '~f'), '-', '−')" },
          },
        },
      },
      { data, mark: { ...line, color: colours.accent }, encoding: { x, y: yOf('suction') } },
      { data, mark: { ...saturation, color: colours.ink }, encoding: { x, y: yOf('bubble') } },
      { data, mark: { ...line, color: colours.ink }, encoding: { x, y: yOf('liquid') } },
      {
        data: { name: 'gaps', values: gaps },
        mark: { type: 'rule', strokeWidth: 2, color: gapColour },
        encoding: {
          x: { field: 'at', type: 'quantitative' },
          y: { field: 'saturation', type: 'quantitative' },
          y2: { field: 'line' },
        },
      },
      { data: { name: 'gaps' }, mark: { ...words, ...halo }, encoding: wordsAt },
      { data: { name: 'gaps' }, mark: { ...words, color: gapColour }, encoding: wordsAt },
    ],
    config: chartConfig(colours),
  };
}

/** Rows of the chart; once with their values, else by name. */
interface Rows {
  readonly name: string;
  readonly values?: object[];
}

/** A gap as a bar in the middle of the steady stretch; its words stand where curves that settle towards it do not come from. */
function gapRows(
  name: 'superheat' | 'subcooling',
  gap: SaturationGap | null,
  units: UnitSystem,
  shown: (k: number) => number,
) {
  if (gap === null) return [];
  const { k, saturationK, lineK } = gap;
  const isBelow = name === 'superheat';
  return [
    {
      name,
      text: `${name} ${temperatureChangeText(k, units)}`,
      saturation: shown(saturationK),
      line: shown(lineK),
      edge: shown(isBelow ? Math.min(saturationK, lineK) : Math.max(saturationK, lineK)),
      offsetPx: isBelow ? 13 : -12,
    },
  ];
}

/** From lowest to highest with a little room, not narrower than is worth looking at [K]. */
function spanOf(valuesK: readonly number[]): [number, number] {
  const [low, high] = [Math.min(...valuesK), Math.max(...valuesK)];
  const missing = Math.max(0, LEAST_SPAN_K - (high - low)) / 2;
  const edge = EDGE_RATIO * Math.max(LEAST_SPAN_K, high - low);
  return [low - missing - edge, high + missing + edge];
}
