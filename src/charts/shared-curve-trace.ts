import type { TopLevelSpec } from 'vega-lite';
import { durationText, type UnitSystem } from '../units/display.ts';
import { fromInterchange } from '../units/unit.ts';
import { type ChartColours, lightColours } from './chart-colours.ts';
import { chartConfig } from './chart-config.ts';
import { chartTime } from './chart-time.ts';

/** Some readings of a curve that stands in another job too. Parallel arrays; pressures absolute. */
export interface SharedCurve {
  readonly otherJobId: string;
  readonly isVacuum: boolean;
  /** In the log of this job [s]. */
  readonly elapsedS: readonly number[];
  /** What this job has [Pa]. */
  readonly ownPa: readonly number[];
  /** What the other has at the same readings, brought to the level of this one [Pa]. */
  readonly otherPa: readonly number[];
}

export interface SharedCurveOptions {
  readonly units: UnitSystem;
  readonly colours?: ChartColours;
}

const HEIGHT_PX = 200;

/** The unit that the pressures of a shared curve are drawn in. */
export function sharedCurveUnit({ isVacuum }: Pick<SharedCurve, 'isVacuum'>, units: UnitSystem) {
  if (isVacuum)
    return units === 'ip' ? ({ name: 'micron', decimals: 2 } as const) : ({ name: 'Pa', decimals: 3 } as const);
  return units === 'ip' ? ({ name: 'psia', decimals: 3 } as const) : ({ name: 'bar', decimals: 5 } as const);
}

/**
 * Do the readings of both jobs go together, noise and all?
 *
 * A few dozen readings where the pressure moved least, so that the noise shows: thick, this job; thin and dark, the other one at the
 * same readings, moved in time and to the same level. Of two honest jobs the lines would go their own ways.
 *
 * @returns Vega-Lite specification, or null for fewer than three readings
 */
export function sharedCurveTrace(
  curve: SharedCurve,
  { units, colours = lightColours }: SharedCurveOptions,
): TopLevelSpec | null {
  const { elapsedS, ownPa, otherPa } = curve;
  const [firstS] = elapsedS;
  const lastS = elapsedS.at(-1);
  if (firstS === undefined || lastS === undefined || elapsedS.length < 3) return null;
  const time = chartTime(lastS - firstS);
  const unit = sharedCurveUnit(curve, units);
  const shown = (pa: number) => Number(fromInterchange(pa, unit.name).toFixed(unit.decimals));
  const rows = elapsedS.map((atS, row) => ({
    t: time.of(atS - firstS),
    own: shown(ownPa[row] ?? Number.NaN),
    other: shown(otherPa[row] ?? Number.NaN),
  }));
  const x = {
    field: 't',
    type: 'quantitative' as const,
    scale: { domain: [0, time.of(lastS - firstS)], nice: false },
    axis: { title: `${time.unit}, from ${durationText(firstS)} into the log on`, grid: false, tickCount: 5 },
  };
  const y = (field: 'own' | 'other') => ({
    field,
    type: 'quantitative' as const,
    scale: { zero: false },
    axis: { title: null, tickCount: 4 },
  });
  return {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    width: 'container',
    height: HEIGHT_PX,
    data: { values: rows },
    layer: [
      { mark: { type: 'line', color: colours.accent, strokeWidth: 3.5, opacity: 0.6 }, encoding: { x, y: y('own') } },
      { mark: { type: 'line', color: colours.ink, strokeWidth: 1.2 }, encoding: { x, y: y('other') } },
    ],
    config: chartConfig(colours),
  };
}
