import { correlatedLine } from '../../numerics/correlated-line.ts';
import { holdCovariance } from './hold-covariance.ts';
import { mostMeans } from './hold-means.ts';
import { nitrogenPaPerK } from './nitrogen-pa-per-k.ts';
import { settlingTime } from './settling-time.ts';
import { smallestDrop } from './smallest-drop.ts';

/** A standing pressure test that is planned. */
export interface StandingTestPlan {
  /** Pressure to hold [Pa], absolute. */
  readonly pressurePa: number;
  /** Length of the hold [s]; the settling after filling comes off it. */
  readonly durationS: number;
  /** How often it is read [s]. */
  readonly intervalS: number;
  /** Step of the gauge [Pa]. */
  readonly stepPa: number;
  /** Temperature of the gas [K]. */
  readonly temperatureK: number;
  /** How well its change over the hold is known [K]: 95 %, either way. */
  readonly temperatureUncertaintyK: number;
}

/** What a planned test would show. */
export interface StandingTestSight {
  /** Smallest drop over the judged part that would be told for one, four times of five [Pa]. */
  readonly smallestDropPa: number;
  /** How long the part is that judges [s]. */
  readonly judgedS: number;
}

/** Half of a 95 % interval in standard deviations. */
const deviationsAt95 = 1.96;

/**
 * The smallest drop that a standing pressure test will show, by gauge, temperature and length: as `pressureTestFacts` would
 * say of such a test on an even day, but with the temperature as well known as the plan says.
 *
 * @example
 * standingTestSight({ pressurePa: 3.55e6, durationS: 86400, intervalS: 60, stepPa: 6895, temperatureK: 294,
 *   temperatureUncertaintyK: 1 }).smallestDropPa / 6895 // psi
 */
export function standingTestSight(plan: StandingTestPlan): StandingTestSight {
  const { pressurePa, durationS, intervalS, stepPa, temperatureK, temperatureUncertaintyK } = plan;
  const settledForS = settlingTime(durationS);
  const judgedS = durationS - settledForS;
  const readings = Math.max(2, Math.floor(judgedS / intervalS) + 1);
  const n = Math.min(mostMeans, readings);
  const widthS = judgedS / n;
  const sinceS = Float64Array.from({ length: n }, (_, bin) =>
    n === readings ? (bin * judgedS) / (n - 1) : (bin + 0.5) * widthS,
  );
  const covariance = holdCovariance({
    means: {
      sinceS,
      counts: new Float64Array(n).fill(readings / n),
      lastedS: judgedS,
      widthS,
      gauge: { noise: 0, changes: 0, levels: 1, step: stepPa },
      clamp: { noise: 0, changes: 0, levels: 1, step: 0 },
    },
    warmerK: new Float64Array(n),
    paPerK: nitrogenPaPerK(pressurePa, temperatureK),
    testPa: pressurePa,
    stepPa,
    settledForS,
    driftK: temperatureUncertaintyK / deviationsAt95,
  });
  const line = correlatedLine(sinceS, new Float64Array(n), covariance);
  const deviation = judgedS * Math.sqrt(line?.variance ?? Number.POSITIVE_INFINITY);
  return { smallestDropPa: smallestDrop([{ weight: 1, mean: 0, deviation }]), judgedS };
}
