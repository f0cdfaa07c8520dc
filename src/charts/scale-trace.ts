import { massText, type UnitSystem } from '../units/display.ts';
import { fromInterchange, toInterchange } from '../units/unit.ts';
import { type ChartColours, lightColours } from './chart-colours.ts';
import { chartConfig } from './chart-config.ts';
import { chartTime } from './chart-time.ts';
import type { DrawnFlow, DrawnMass, ScaleMove, ScaleRecording } from './scale-recording.ts';
import type { TopLevelSpec } from 'vega-lite';

export interface ScaleTraceOptions {
  readonly moves: readonly ScaleMove[];
  /** What flowed; null where that cannot be told. */
  readonly flow: DrawnFlow | null;
  readonly units: UnitSystem;
  readonly colours?: ChartColours;
}

/** How far a chart of the scale reaches, and in which unit. */
export interface ScaleReach {
  /** Lower and upper end of the axis [kg]. */
  readonly lowKg: number;
  readonly highKg: number;
  readonly unit: 'oz' | 'lb' | 'g' | 'kg';
  /** Whether some readings go beyond the chart before the events are taken out of them. */
  readonly leaves: boolean;
}

const HEIGHT_PX = 240;
/** The axis spans so much at least [kg]: the steps of a scale stay small in it. */
const LEAST_SPAN_KG = 0.03;
/** Room above, and below, where a scale goes that somebody leans on. */
const EDGE_RATIO = 0.1;
const BELOW_RATIO = 0.2;
/** Words at a level take up so much of the height. */
const WORDS_RATIO = 0.12;

/**
 * The reach of a chart of the scale: what is left once the events are taken out, and a little room.
 *
 * @returns null for fewer than three readings
 */
export function scaleReach(
  { read, corrected }: ScaleRecording,
  { flow, units }: Pick<ScaleTraceOptions, 'flow' | 'units'>,
): ScaleReach | null {
  if (corrected.drawnKg.length < 3) return null;
  const [low, high] = rangeOf([0, flow?.kg ?? 0, ...corrected.drawnKg]);
  const span = Math.max(LEAST_SPAN_KG, high - low);
  const missing = (span - (high - low)) / 2;
  const lowKg = low - missing - BELOW_RATIO * span;
  const highKg = high + missing + EDGE_RATIO * span;
  const isSmall = Math.max(-low, high) < toInterchange(1, units === 'ip' ? 'lb' : 'kg');
  const unit = units === 'ip' ? (isSmall ? 'oz' : 'lb') : isSmall ? 'g' : 'kg';
  return { lowKg, highKg, unit, leaves: read.drawnKg.some((kg) => kg < lowKg || kg > highKg) };
}

/**
 * How much left the cylinder?
 *
 * The mass that left it over minutes, from 0 where the scale stood before, so that a small charge fills the chart
 * however heavy the cylinder is: ounces, from a pound on pounds (ip), or grams, from a kilogram on kilograms (si). Thin, what was
 * read, as far as it fits; thick, what is left once bumps, zeroing and moved hoses or cylinders are taken out, each a grey
 * band. Bars along the levels before and after are the stands whose difference is the mass; the flow between them is
 * shaded.
 *
 * @param recording at most some hundred readings: decimate before
 * @returns Vega-Lite specification, or null where `scaleReach` is
 */
export function scaleTrace(recording: ScaleRecording, options: ScaleTraceOptions): TopLevelSpec | null {
  const { moves, flow, units, colours = lightColours } = options;
  const reach = scaleReach(recording, options);
  if (reach === null) return null;
  const { read, corrected } = recording;
  const decimals = { oz: 3, lb: 4, g: 1, kg: 4 }[reach.unit];
  const shown = (kg: number) => Number(fromInterchange(kg, reach.unit).toFixed(decimals));
  const endS = Math.max(6, read.elapsedS.at(-1) ?? 0);
  const time = chartTime(endS);
  const rows = ({ elapsedS, drawnKg }: DrawnMass) =>
    elapsedS.map((atS, index) => ({ t: time.of(atS), p: shown(drawnKg[index] ?? 0) }));
  const span = ({ startS, endS: untilS }: { readonly startS: number; readonly endS: number }) => ({
    from: time.of(startS),
    to: time.of(untilS),
  });
  const flows =
    flow === null ? [] : [{ ...span(flow), low: 0, p: shown(flow.kg), side: freeSide(corrected, flow, endS) }];
  const stands =
    flow === null
      ? []
      : [
          { ...span(flow.before), p: 0, offsetPx: 7 },
          { ...span(flow.after), p: shown(flow.kg), offsetPx: -7 },
        ];
  const taken = moves.filter(({ isFlow }) => !isFlow);
  const x = { field: 't', type: 'quantitative' } as const;
  const y = { field: 'p', type: 'quantitative' } as const;
  const from = { field: 'from', type: 'quantitative' } as const;
  const isRight = "datum.side === 'right'";
  const words = {
    type: 'text',
    align: { expr: 'datum.side' },
    dx: { expr: `${isRight} ? -16 : 16` },
    // Where the curve is not: at the right above the level before, at the left below the level after.
    dy: { expr: `${isRight} ? -11 : 13` },
    fontSize: 13,
    fontWeight: 'bold',
  } as const;
  const atSide = { value: { expr: `${isRight} ? width - 9 : 9` } } as const;
  const wordsAt = {
    x: { value: { expr: `${isRight} ? width : 0` } },
    y: { field: 'level', type: 'quantitative' },
    text: { value: flow === null ? '' : massText(flow.kg, units) },
  } as const;
  const wordsData = [{ calculate: `${isRight} ? datum.low : datum.p`, as: 'level' }] as const;
  const halo = { stroke: colours.paper, strokeWidth: 4, strokeJoin: 'round', color: colours.paper } as const;
  return {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    width: 'container',
    height: HEIGHT_PX,
    layer: [
      {
        data: { name: 'flow', values: flows },
        mark: { type: 'rect', color: colours.accent, opacity: 0.1 },
        encoding: {
          x: {
            ...from,
            title: `${time.unit} of the scale’s log`,
            scale: { domain: [0, time.of(endS)], nice: false },
            axis: { grid: false, tickCount: { expr: 'max(3, width / 80)' } },
          },
          x2: { field: 'to' },
        },
      },
      {
        // The outline keeps an event of a second visible.
        data: { name: 'moves', values: taken.map(span) },
        mark: { type: 'rect', color: colours.muted, opacity: 0.28, stroke: colours.muted, strokeWidth: 2 },
        encoding: { x: from, x2: { field: 'to' } },
      },
      {
        data: { name: 'doubtful', values: moves.filter(({ isFlow }) => isFlow).map(span) },
        mark: { type: 'rect', color: colours.accent, opacity: 0.35, stroke: colours.accent, strokeDash: [2, 2] },
        encoding: { x: from, x2: { field: 'to' } },
      },
      {
        data: { name: 'levels', values: flows.flatMap(({ p }) => [{ p: 0 }, { p }]) },
        mark: { type: 'rule', color: colours.ink, strokeWidth: 1, strokeDash: [3, 3] },
        encoding: { y },
      },
      {
        data: { name: 'read', values: taken.length === 0 ? [] : rows(read) },
        mark: { type: 'line', color: colours.muted, strokeWidth: 1.25, clip: true },
        encoding: {
          x,
          y: {
            ...y,
            title: null,
            scale: { domain: [shown(reach.lowKg), shown(reach.highKg)], nice: false },
            axis: { tickCount: 5, labelExpr: "replace(join(split(format(datum.value, ',~f'), ','), ' '), '-', '−')" },
          },
        },
      },
      {
        data: { name: 'corrected', values: rows(corrected) },
        mark: { type: 'line', color: colours.accent, strokeWidth: 3, strokeCap: 'round', strokeJoin: 'round' },
        encoding: { x, y },
      },
      {
        data: { name: 'stands', values: stands },
        mark: { type: 'rule', color: colours.ink, strokeWidth: 5, yOffset: { expr: 'datum.offsetPx' } },
        encoding: { x: from, x2: { field: 'to' }, y },
      },
      {
        data: { name: 'flow' },
        mark: { type: 'rule', color: colours.ink, strokeWidth: 1.5 },
        encoding: { x: atSide, y: { field: 'low', type: 'quantitative' }, y2: { field: 'p' } },
      },
      { data: { name: 'flow' }, transform: [...wordsData], mark: { ...words, ...halo }, encoding: wordsAt },
      { data: { name: 'flow' }, transform: [...wordsData], mark: { ...words, color: colours.ink }, encoding: wordsAt },
    ],
    config: chartConfig(colours),
  };
}

function rangeOf(values: readonly number[]): [number, number] {
  return [Math.min(...values), Math.max(...values)];
}

/** At which side the mass can stand beside its arrow: at the right, beneath the curve, unless that rises late. */
function freeSide({ elapsedS, drawnKg }: DrawnMass, { kg }: DrawnFlow, endS: number): 'left' | 'right' {
  const late = drawnKg.filter((_, index) => (elapsedS[index] ?? 0) >= 0.55 * endS);
  return Math.min(...late) > WORDS_RATIO * kg ? 'right' : 'left';
}
