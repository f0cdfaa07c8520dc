import type { TopLevelSpec } from 'vega-lite';
import { temperatureChangeText, type UnitSystem } from '../units/display.ts';
import { fromGauge, gaugePressure } from '../units/gauge-pressure.ts';
import { fromInterchange } from '../units/unit.ts';
import { type ChartColours, lightColours } from './chart-colours.ts';
import { chartConfig } from './chart-config.ts';
import type { SaturationGap, SaturationPoint } from './run-recording.ts';

/** One side of a running system: its pressure, how far its line is from saturation there, and what was asked for. */
export interface SaturationSide {
  /** Mean pressure over the steady stretch [Pa], absolute. */
  readonly pressurePa: number;
  readonly gap: SaturationGap;
  /** Superheat or subcooling that was to be shown [K]; null where none is known. */
  readonly targetK: number | null;
}

export interface SaturationPointsOptions {
  /** Null where it was not read, or where its line carries two phases. */
  readonly suction: SaturationSide | null;
  readonly liquid: SaturationSide | null;
  /** Pressure of the air, from which psig count [Pa]. */
  readonly atmospherePa: number;
  readonly units: UnitSystem;
  readonly colours?: ChartColours;
}

const HEIGHT_PX = 270;
/** Words run on from their point, away from the curves, and take up so much of a narrow chart's width. */
const WORDS_SHARE = 0.45;
/** Room above and below what is drawn, and beside a target. */
const EDGE_RATIO = 0.1;

/**
 * How far was the system from saturation, on the curve of its refrigerant?
 *
 * Pressure over temperature: psig over °F (ip) or absolute bar over °C (si). The bubble curve is solid, the dew curve dashed;
 * the suction line is a disc, joined to the dew curve by superheat, the liquid line a square, joined to the bubble curve by
 * subcooling. What was asked for is hollow, of the same shape, at the same pressure.
 *
 * @param curve saturation by rising temperature
 * @returns Vega-Lite specification, or null where the curve or both sides are missing
 */
export function saturationPoints(
  curve: readonly SaturationPoint[],
  options: SaturationPointsOptions,
): TopLevelSpec | null {
  const { suction, liquid, atmospherePa, units, colours = lightColours } = options;
  if (curve.length < 2 || (suction === null && liquid === null)) return null;
  const rounded = (value: number) => Number(value.toFixed(3));
  const degrees = (k: number) => rounded(units === 'ip' ? fromInterchange(k - 273.15, 'F') : k - 273.15);
  const pressure = (pa: number) =>
    rounded(units === 'ip' ? fromGauge(gaugePressure(pa, atmospherePa), 'psig') : fromInterchange(pa, 'bar'));
  const sides = [
    ...(suction === null ? [] : [{ name: 'superheat', side: suction, away: 1 } as const]),
    ...(liquid === null ? [] : [{ name: 'subcooling', side: liquid, away: -1 } as const]),
  ];
  const rows: SideRow[] = sides.map(({ name, side: { pressurePa, gap, targetK }, away }) => ({
    name,
    p: pressure(pressurePa),
    saturation: degrees(gap.saturationK),
    line: degrees(gap.lineK),
    edge: degrees(away * Math.max(away * gap.saturationK, away * gap.lineK)),
    target: targetK === null ? null : degrees(gap.saturationK + away * targetK),
    text: `${name} ${temperatureChangeText(gap.k, units)}`,
  }));
  const pressures = [
    ...curve.flatMap(({ dewPa, bubblePa }) => [dewPa, bubblePa]).map(pressure),
    ...rows.map(({ p }) => p),
  ];
  const values = curve.map(({ temperatureK, dewPa, bubblePa }) => ({
    t: degrees(temperatureK),
    dew: pressure(dewPa),
    bubble: pressure(bubblePa),
  }));
  const isSuperheat = "datum.name === 'superheat'";
  const colour = { expr: `${isSuperheat} ? '${colours.accent}' : '${colours.ink}'` };
  const data = { name: 'sides' } as const;
  const temperature = (field: string) => ({ field, type: 'quantitative' }) as const;
  const p = { field: 'p', type: 'quantitative' } as const;
  const words = {
    type: 'text',
    align: { expr: `${isSuperheat} ? 'left' : 'right'` },
    // Below the one and above the other, where no curve goes and no target stands.
    dx: { expr: `${isSuperheat} ? -5 : 5` },
    dy: { expr: `${isSuperheat} ? 17 : -16` },
    fontSize: 12,
    fontWeight: 'bold',
  } as const;
  const halo = { stroke: colours.paper, strokeWidth: 4, strokeJoin: 'round', color: colours.paper } as const;
  const wordsAt = { x: temperature('edge'), y: p, text: { field: 'text', type: 'nominal' } } as const;
  const shape = { expr: `${isSuperheat} ? 'circle' : 'square'` } as const;
  const phase = (text: string, corner: { x: 0 | 'width'; y: 0 | 'height' }) =>
    [halo, { color: colours.muted }].map((drawn) => ({
      data: { values: [{}] },
      mark: {
        type: 'text' as const,
        align: corner.x === 0 ? ('left' as const) : ('right' as const),
        dx: corner.x === 0 ? 6 : -6,
        dy: corner.y === 0 ? 12 : -12,
        fontSize: 11,
        ...drawn,
      },
      encoding: { x: { value: corner.x }, y: { value: corner.y }, text: { value: text } },
    }));
  return {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    width: 'container',
    height: HEIGHT_PX,
    layer: [
      {
        data: { name: 'curve', values },
        mark: { type: 'line', color: colours.ink, strokeWidth: 1.5, clip: true },
        encoding: {
          x: {
            ...temperature('t'),
            title: `temperature, ${units === 'ip' ? '°F' : '°C'}`,
            scale: {
              domain: degreesDomain(
                values.map(({ t }) => t),
                rows,
              ),
              nice: false,
              zero: false,
            },
            axis: { grid: false, tickCount: { expr: 'max(3, width / 80)' }, labelExpr: signedLabel },
          },
          y: {
            ...temperature('bubble'),
            title: null,
            scale: { domain: withEdges(pressures), nice: false, zero: false },
            axis: { tickCount: 6, labelExpr: signedLabel },
          },
        },
      },
      {
        data: { name: 'curve' },
        mark: { type: 'line', color: colours.accent, strokeWidth: 1.75, strokeDash: [5, 3], clip: true },
        encoding: { x: temperature('t'), y: temperature('dew') },
      },
      ...phase('liquid', { x: 0, y: 0 }),
      ...phase('vapour', { x: 'width', y: 'height' }),
      {
        data: { name: 'sides', values: rows },
        mark: { type: 'rule', strokeWidth: 2.5, color: colour },
        encoding: { x: temperature('saturation'), x2: { field: 'line' }, y: p },
      },
      {
        data,
        mark: { type: 'tick', orient: 'vertical', size: 12, thickness: 2.5, color: colour },
        encoding: { x: temperature('saturation'), y: p },
      },
      {
        data,
        mark: { type: 'point', filled: true, opacity: 1, size: 85, shape, color: colour },
        encoding: { x: temperature('line'), y: p },
      },
      {
        data,
        transform: [{ filter: 'isValid(datum.target)' }],
        mark: { type: 'point', filled: false, opacity: 1, size: 190, strokeWidth: 1.75, shape, color: colour },
        encoding: { x: temperature('target'), y: p },
      },
      { data, mark: { ...words, ...halo }, encoding: wordsAt },
      { data, mark: { ...words, color: colour }, encoding: wordsAt },
    ],
    config: chartConfig(colours),
  };
}

/** A side as it is drawn: pressure, temperatures of curve, line, words and target, on the chart's axes. */
interface SideRow {
  readonly name: 'superheat' | 'subcooling';
  readonly p: number;
  readonly saturation: number;
  readonly line: number;
  readonly edge: number;
  readonly target: number | null;
  readonly text: string;
}

const signedLabel = "replace(format(datum.value, '~f'), '-', '−')";

/** From the curve's first to its last temperature, and on as far as targets and the words of a point take. */
function degreesDomain(curve: readonly number[], rows: readonly SideRow[]): [number, number] {
  const room = EDGE_RATIO * (Math.max(...curve) - Math.min(...curve));
  const targets = rows.flatMap(({ target }) => (target === null ? [] : [target]));
  let low = Math.min(...curve, ...targets.map((target) => target - room));
  let high = Math.max(...curve, ...targets.map((target) => target + room));
  for (const { name, edge } of rows)
    if (name === 'superheat') high = Math.max(high, (edge - WORDS_SHARE * low) / (1 - WORDS_SHARE));
    else low = Math.min(low, (edge - WORDS_SHARE * high) / (1 - WORDS_SHARE));
  return [low, high];
}

/** From lowest to highest with a little room. */
function withEdges(values: readonly number[]): [number, number] {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const edge = EDGE_RATIO * (high - low);
  return [low - edge, high + edge];
}
