import type { TopLevelSpec } from 'vega-lite';
import { pressureChangeText, type UnitSystem } from '../units/display.ts';
import { fromInterchange } from '../units/unit.ts';
import { type ChartColours, lightColours } from './chart-colours.ts';
import { chartConfig } from './chart-config.ts';
import { chartTime } from './chart-time.ts';
import type { CorrectedHold, DropRange, JudgedHoldSpan, PressureRecording } from './pressure-recording.ts';

export interface HeldPressureTraceOptions {
  /** The hold to show; null for none. */
  readonly judged: JudgedHoldSpan | null;
  /** What is judged, temperature taken out; null where that cannot be. */
  readonly corrected: CorrectedHold | null;
  /** Drop that temperature does not explain; null where it cannot be told. */
  readonly drop: DropRange | null;
  /** Drop that was allowed [Pa]; null or 0 for none. */
  readonly allowedDropPa: number | null;
  readonly units: UnitSystem;
  readonly colours?: ChartColours;
}

const HEIGHT_PX = 240;
/** The axis spans so much at least [Pa], 2 psi: a tight system stands flat in it, a leak that matters slopes. */
export const LEAST_SPAN_PA = 13_790;
const EDGE_RATIO = 0.08;

/**
 * Did the nitrogen hold, once temperature is taken out?
 *
 * The judged hold alone, as changes from its start on in psi (ip) or bar (si), over minutes or hours since the valve was
 * shut. Thin, what was read; thick, what is left of it once the part is taken out that the temperature of the pipe
 * explains; a tight system stays on the line at zero, so that the gap below it is the drop, whose 95 % interval is a
 * wedge. While the gas settles after filling only the readings are drawn, as far as they fit. Without a temperature there
 * are the readings alone.
 *
 * @param recording the whole test's recording
 * @returns Vega-Lite specification, or null where there is no judged hold, or fewer than three readings in it
 */
export function heldPressureTrace(
  recording: PressureRecording,
  options: HeldPressureTraceOptions,
): TopLevelSpec | null {
  const { judged, units, colours = lightColours } = options;
  if (judged === null) return null;
  const { startS, settledS, endS } = judged;
  const { corrected, drop } = options.drop === null || options.corrected === null ? notCorrected : options;
  const held = recording.elapsedS.flatMap((atS, index) => {
    const pa = recording.testPa[index];
    return pa === undefined || atS < startS || atS > endS ? [] : [{ atS, pa }];
  });
  const settled = held.filter(({ atS }) => atS >= settledS);
  if (settled.length < 3) return null;
  // Changes count from a tight system's curve, where there is one: the noise of one reading shifts nothing then.
  const fromPa = corrected?.expectedPa[0] ?? settled[0]?.pa ?? 0;
  const time = chartTime(endS - startS);
  const at = (atS: number) => time.of(atS - startS);
  const unit = ({ ip: { name: 'psia', decimals: 3 }, si: { name: 'bar', decimals: 5 } } as const)[units];
  const shown = (pa: number) => Number(fromInterchange(pa, unit.name).toFixed(unit.decimals));
  const allowedPa = drop !== null && (options.allowedDropPa ?? 0) > 0 ? [options.allowedDropPa ?? 0] : [];
  const [lowPa, highPa] = spanOf([
    0,
    ...settled.map(({ pa }) => pa - fromPa),
    ...(corrected?.besidePa ?? []),
    ...(drop === null ? [] : [-drop.lowPa, -drop.highPa]),
    ...allowedPa.map((pa) => -pa),
  ]);
  const read = held
    .filter(({ pa }) => pa - fromPa >= lowPa && pa - fromPa <= highPa)
    .map(({ atS, pa }) => ({ t: at(atS), p: shown(pa - fromPa) }));
  const kept = (corrected?.elapsedS ?? []).map((atS, index) => ({
    t: at(atS),
    p: shown(corrected?.besidePa[index] ?? 0),
  }));
  const ends = { from: at(settledS), to: at(endS) };
  const wedge =
    drop !== null
      ? [
          { t: ends.from, low: 0, high: 0, p: 0 },
          { t: ends.to, low: shown(-drop.highPa), high: shown(-drop.lowPa), p: shown(-drop.pa) },
        ]
      : [];
  const allowed = allowedPa.map((pa) => ({
    ...ends,
    p: shown(-pa),
    text: `allowed: ${pressureChangeText(pa, units)}`,
  }));
  const x = { field: 't', type: 'quantitative' } as const;
  const y = { field: 'p', type: 'quantitative' } as const;
  const line =
    drop !== null
      ? ({ color: colours.muted, strokeWidth: 1.25 } as const)
      : ({ color: colours.accent, strokeWidth: 1.75 } as const);
  return {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    width: 'container',
    height: HEIGHT_PX,
    layer: [
      {
        data: { name: 'settling', values: settledS > startS ? [{ from: 0, to: ends.from }] : [] },
        mark: { type: 'rect', color: colours.muted, opacity: 0.1 },
        encoding: {
          x: {
            field: 'from',
            type: 'quantitative',
            title: `${time.unit} since the valve was shut`,
            scale: { domain: [0, Math.max(ends.to, 0.1)], nice: false },
            axis: { grid: false, tickCount: { expr: 'max(3, width / 80)' } },
          },
          x2: { field: 'to' },
        },
      },
      {
        data: { name: 'wedge', values: wedge },
        mark: { type: 'area', color: colours.muted, opacity: 0.2 },
        encoding: { x, y: { field: 'low', type: 'quantitative' }, y2: { field: 'high' } },
      },
      {
        data: { name: 'tight', values: drop !== null ? [{ ...ends, p: 0 }] : [] },
        mark: { type: 'rule', color: colours.ink, strokeWidth: 1.25 },
        encoding: { x: { field: 'from', type: 'quantitative' }, x2: { field: 'to' }, y },
      },
      {
        data: { name: 'allowed', values: allowed },
        mark: { type: 'rule', color: colours.fail, strokeWidth: 1.25, strokeDash: [6, 3] },
        encoding: { x: { field: 'from', type: 'quantitative' }, x2: { field: 'to' }, y },
      },
      {
        data: { name: 'read', values: read },
        mark: { type: 'line', ...line },
        encoding: {
          x,
          y: {
            ...y,
            title: null,
            scale: { domain: [shown(lowPa), shown(highPa)], nice: false },
            axis: {
              tickCount: 5,
              labelExpr: "datum.value === 0 ? '0' : replace(format(datum.value, '+~f'), '-', '−')",
            },
          },
        },
      },
      {
        data: { name: 'kept', values: kept },
        mark: { type: 'line', color: colours.accent, strokeWidth: 3, strokeCap: 'round', strokeJoin: 'round' },
        encoding: { x, y },
      },
      {
        data: { name: 'wedge' },
        mark: { type: 'line', color: colours.ink, strokeWidth: 1.25, strokeDash: [3, 3] },
        encoding: { x, y },
      },
      {
        data: { name: 'allowed' },
        mark: { type: 'text', align: 'left', dx: 4, dy: 9, fontSize: 11, color: colours.fail },
        encoding: { x: { field: 'from', type: 'quantitative' }, y, text: { field: 'text', type: 'nominal' } },
      },
    ],
    config: chartConfig(colours),
  };
}

const notCorrected = { corrected: null, drop: null };

/** From lowest to highest with a little room, and not narrower than a gauge is worth [Pa]. */
function spanOf(values: readonly number[]): [number, number] {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const missing = Math.max(0, LEAST_SPAN_PA - (high - low)) / 2;
  const edge = EDGE_RATIO * Math.max(LEAST_SPAN_PA, high - low);
  return [low - missing - edge, high + missing + edge];
}
