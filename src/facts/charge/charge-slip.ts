import type { Facts } from '../../records/tables/facts.ts';
import { type ChargeSlip, type SlipHypothesis, type SlipMaterial, slipHypotheses } from './slip-hypotheses.ts';

/** What was put in, less what should have been, and how well that is known. */
export interface KnownDeviation {
  readonly kg: number;
  /** The middle of what it may be [kg]: less than that where hoses of which nothing is on record kept some. */
  readonly middleKg: number;
  /** Standard uncertainty of mass, lengths and adders [kg]. */
  readonly uncertaintyKg: number;
}

// Priors and spreads: common practice, no source; set on simulated jobs and held by tests.
/** Most charges are as they were worked out … */
const noneShare = 0.7;
/** … some are off for a reason that is none of the slips … */
const otherShare = 0.05;
/** … by about so much [kg]. */
const otherSpreadKg = 0.2;
/** A valve is shut some grams early or late [kg], and now and then by much more. */
const aimKg = 0.007;
const missShare = 0.05;
const missKg = 0.06;
/** How usual each slip is beside the others. */
const usual: Record<ChargeSlip, number> = {
  'line-ignored': 1,
  'from-zero': 1,
  'other-line-size': 0.6,
  'other-refrigerant': 0.4,
  'ounce-tenth-pound': 1,
  'kg-pound': 0.4,
  'hose-residual': 0.8,
  'factory-again': 0.4,
};
const usualSum = Object.values(usual).reduce((sum, weight) => sum + weight, 0);
/** A slip is named where it is so much likelier than all else together … */
const namedProbability = 0.55;
const mostProbability = 0.99;
/** … and where what it changes stands out of the uncertainty by this many standard deviations. */
const leastDeviations = 2.5;

/**
 * Why a charge is off: each slip predicts a deviation; the likelihoods of what was found, with the uncertainty of scale and
 * length and a prior that favours no slip, tell how likely each is. A name only where the odds are clear.
 */
export function chargeSlipFacts(deviation: KnownDeviation, material: SlipMaterial): Partial<Facts> {
  const sigmaKg = Math.hypot(deviation.uncertaintyKg, aimKg);
  const tailKg = Math.hypot(deviation.uncertaintyKg, missKg);
  const likelihood = (byKg: number) => {
    const offKg = deviation.middleKg - byKg;
    return (1 - missShare) * density(offKg, sigmaKg) + missShare * density(offKg, tailKg);
  };
  const slipShare = 1 - noneShare - otherShare;
  const slips = slipHypotheses(material).map((hypothesis) => ({
    hypothesis,
    weight:
      ((slipShare * usual[hypothesis.slip]) / usualSum) *
      hypothesis.share *
      likelihood(hypothesis.chargeKg - material.wantedKg),
  }));
  const noSlip =
    noneShare * likelihood(0) +
    otherShare * density(deviation.middleKg, Math.hypot(deviation.uncertaintyKg, otherSpreadKg));
  const all = slips.reduce((sum, { weight }) => sum + weight, noSlip);
  if (!(all > 0)) return {};
  const best = likeliest(slips);
  if (best === undefined) return {};
  // No model of slips is surer than that.
  const probability = Math.min(mostProbability, best.weight / all);
  const changedKg = Math.abs(best.hypothesis.chargeKg - material.wantedKg);
  const isNamed = probability >= namedProbability && changedKg > leastDeviations * sigmaKg;
  if (!isNamed) return { slip_probability_ratio: probability };
  return {
    charge_slip: best.hypothesis.slip,
    slip_probability_ratio: probability,
    slip_charge_kg: best.hypothesis.chargeKg,
    ...(best.hypothesis.of === undefined ? {} : { slip_of: best.hypothesis.of }),
  };
}

/** The slip that all its ways together make likeliest, by its likeliest way. */
function likeliest(
  slips: readonly { hypothesis: SlipHypothesis; weight: number }[],
): { hypothesis: SlipHypothesis; weight: number } | undefined {
  const sums = new Map<ChargeSlip, { hypothesis: SlipHypothesis; weight: number; most: number }>();
  for (const { hypothesis, weight } of slips) {
    const sum = sums.get(hypothesis.slip) ?? { hypothesis, weight: 0, most: 0 };
    sum.weight += weight;
    if (weight > sum.most) {
      sum.most = weight;
      sum.hypothesis = hypothesis;
    }
    sums.set(hypothesis.slip, sum);
  }
  return [...sums.values()].toSorted((a, b) => b.weight - a.weight)[0];
}

function density(offKg: number, deviationKg: number): number {
  return Math.exp((-offKg * offKg) / (2 * deviationKg * deviationKg)) / (deviationKg * Math.sqrt(2 * Math.PI));
}
