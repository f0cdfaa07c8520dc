import type { Random } from '../../src/numerics/random.ts';
import type { TrialPlan } from './trial-plan.ts';

/** Slow drift of a gauge: a straight line and a random walk, as ratio of the reading. To be asked in the order of time. */
export function gaugeDrift({ driftPerS, walkRatio }: TrialPlan, random: Random): (elapsedS: number) => number {
  let walked = 0;
  let lastS = 0;
  return (elapsedS) => {
    walked += random.normal(0, walkRatio * Math.sqrt(Math.max(0, elapsedS - lastS)));
    lastS = elapsedS;
    return walked + driftPerS * elapsedS;
  };
}
