import { Random } from '../../numerics/random.ts';
import { driftRate } from '../rise/drift-rate.ts';
import { levelOf } from '../rise/level-before.ts';
import { RiseBasis } from '../rise/rise-basis.ts';
import { RiseColumns } from '../rise/rise-columns.ts';
import { riseOutlook } from '../rise/rise-outlook.ts';
import { type ReadingNoise, readingNoise, riseSamples } from '../rise/rise-samples.ts';
import { type Sight, sight } from '../rise/sight.ts';
import { smallestSeen } from '../rise/smallest-seen.ts';

/** A rise test that is planned: of a system that is dry and gives nothing off. */
export interface PlannedRiseTest {
  /** Pressure at valve-off [Pa]. */
  readonly fromPa: number;
  /** Step of the gauge [Pa], above 0. */
  readonly stepPa: number;
  /** Noise of a reading, one standard deviation, as a ratio of the pressure; 0 or more. */
  readonly noiseRatio: number;
  /** Time between two readings [s]. */
  readonly intervalS: number;
  /** How long the pump was on before [s]. */
  readonly pumpedS: number;
}

/** The scatter of a gauge is told from so many readings. */
const tellingReadings = 10_000;

/**
 * What a planned rise test could see, as the facts of its log would say it afterwards: the same means, weights, rivals and
 * drift, on a level with the scatter that is to be expected instead of one that was read. The level lies in the middle of
 * a step, where a gauge that is quieter than its steps hides most.
 *
 * @returns what it sees by its length from valve-off on [s], no more for a longer one; undefined where its readings are
 *   too few
 */
export function riseTestSight(test: PlannedRiseTest): (durationS: number) => Sight | undefined {
  const { fromPa, stepPa, intervalS, pumpedS } = test;
  const noise = gaugeNoise(test);
  const before = levelOf(fromPa, noise.noiseRatio * fromPa, Math.floor(pumpedS / intervalS) + 1, stepPa);
  const outlook = riseOutlook(pumpedS);
  return (durationS) => {
    const readings = Math.floor(durationS / intervalS + 1e-9);
    const series = {
      gauge: null,
      elapsedS: Float64Array.from({ length: readings + 1 }, (_, index) => index * intervalS),
      vacuumPa: new Float64Array(readings + 1).fill(fromPa),
    };
    const samples = riseSamples(series, 1, readings, { startS: 0, before, stepPa, noise });
    if (samples === undefined) return undefined;
    const basis = new RiseBasis(samples, outlook);
    const columns = new RiseColumns(basis, samples.vacuumPa, samples.weights);
    const seen = sight(samples, { columns, isWet: false }, { leakPaPerS: 0, parts: [] }, 1);
    return smallestSeen(seen, driftRate(basis.testS, fromPa));
  };
}

/** How such a gauge scatters to the eyes of who reads its log, by a fixed sequence of readings. */
function gaugeNoise({ fromPa, stepPa, noiseRatio }: PlannedRiseTest): ReadingNoise {
  const random = new Random(1);
  const shown = Float64Array.from(
    { length: tellingReadings },
    () => fromPa + stepPa * Math.round(random.normal(0, noiseRatio * fromPa) / stepPa),
  );
  return { ...readingNoise(shown), correlation: 0 };
}
