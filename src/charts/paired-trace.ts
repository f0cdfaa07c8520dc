import type { TopLevelSpec } from 'vega-lite';
import type { UnitSystem } from '../units/display.ts';
import { fromInterchange } from '../units/unit.ts';
import { type ChartColours, lightColours } from './chart-colours.ts';
import { chartConfig } from './chart-config.ts';
import { chartTime } from './chart-time.ts';
import { decadeAxis, decades } from './decades.ts';

/** What two jobs are shown beside each other by. */
export type PairedQuantity = 'vacuum' | 'pressure' | 'superheat' | 'subcooling';

/** One quantity over the time of one job. Parallel arrays. */
export interface PairedCurve {
  /** Time since the first reading [s], rising. */
  readonly elapsedS: readonly number[];
  /** Vacuum: absolute [Pa]; pressure: by the gauge [Pa]; superheat and subcooling: [K]. Null where not read, or over range. */
  readonly values: readonly (number | null)[];
}

export interface PairedTraceOptions {
  readonly quantity: PairedQuantity;
  readonly units: UnitSystem;
  readonly colours?: ChartColours;
}

const HEIGHT_PX = 230;
/** What a logarithm cannot show, 0 and below, stands as this [Pa]. */
const FLOOR_PA = 0.1;
/** A difference of one kelvin in °F. */
const KELVIN_IN_F = 1.8;

/** The unit that a quantity is drawn in, as a caption says it. */
export function pairedUnit(quantity: PairedQuantity, units: UnitSystem): string {
  if (quantity === 'vacuum') return units === 'ip' ? 'microns, logarithmic' : 'Pa absolute, logarithmic';
  if (quantity === 'pressure') return units === 'ip' ? 'psig' : 'bar gauge';
  return units === 'ip' ? '°F from saturation' : 'K from saturation';
}

/**
 * How did one job go, and how a like one that went well?
 *
 * One quantity of both over the time since the first reading of each: thick, the job that is talked of; thin and dark, the good one. The
 * vacuum on a logarithmic axis.
 *
 * @param own at most some hundred readings: decimate before
 * @returns Vega-Lite specification; lines break where nothing was read; null where one of both has fewer than three readings
 */
export function pairedTrace(
  own: PairedCurve,
  good: PairedCurve,
  { quantity, units, colours = lightColours }: PairedTraceOptions,
): TopLevelSpec | null {
  const endS = Math.max(own.elapsedS.at(-1) ?? 0, good.elapsedS.at(-1) ?? 0, 60);
  const time = chartTime(endS);
  const rows = ({ elapsedS, values }: PairedCurve) =>
    elapsedS.map((atS, at) => ({ t: time.of(atS), v: shown(values[at], quantity, units) }));
  const [ownRows, goodRows] = [rows(own), rows(good)];
  if ([ownRows, goodRows].some((all) => all.filter(({ v }) => v !== null).length < 3)) return null;
  const encoding = {
    x: {
      field: 't',
      type: 'quantitative' as const,
      scale: { domain: [0, time.of(endS)], nice: false },
      axis: { title: `${time.unit} since the first reading`, grid: false, tickCount: 6 },
    },
    y: {
      field: 'v',
      type: 'quantitative' as const,
      ...(quantity === 'vacuum'
        ? {
            scale: { type: 'log' as const, domain: decades([...ownRows, ...goodRows].map(({ v }) => v)), nice: false },
            axis: { ...decadeAxis, title: null },
          }
        : { scale: { zero: quantity !== 'pressure' }, axis: { title: null, tickCount: 4 } }),
    },
  };
  return {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    width: 'container',
    height: HEIGHT_PX,
    layer: [
      {
        data: { name: 'own', values: ownRows },
        mark: { type: 'line', color: colours.accent, strokeWidth: 3, opacity: 0.7 },
        encoding,
      },
      {
        data: { name: 'good', values: goodRows },
        mark: { type: 'line', color: colours.ink, strokeWidth: 1.4 },
        encoding,
      },
    ],
    config: chartConfig(colours),
  };
}

function shown(value: number | null | undefined, quantity: PairedQuantity, units: UnitSystem): number | null {
  if (value === null || value === undefined) return null;
  if (quantity === 'vacuum') {
    const pa = Math.max(value, FLOOR_PA);
    return Number((units === 'ip' ? fromInterchange(pa, 'micron') : pa).toPrecision(4));
  }
  if (quantity === 'pressure') return Number(fromInterchange(value, units === 'ip' ? 'psia' : 'bar').toFixed(2));
  return Number((units === 'ip' ? KELVIN_IN_F * value : value).toFixed(2));
}
