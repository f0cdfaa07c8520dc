import type { Random } from '../../numerics/random.ts';

/** One cylinder lifted off the scale and another set down, in seconds from the lifting. */
export interface CylinderSwap {
  readonly liftedS: number;
  readonly setDownS: number;
  /** When the scale has come to rest under the second one, and when the flow goes on. */
  readonly restS: number;
  readonly durationS: number;
  /** Share of the first and of the second cylinder's weight that rests on the scale. */
  readonly restingShares: (sinceS: number) => readonly [number, number];
  /** How far the display swings about what rests on it, as a ratio of the weight. */
  readonly swingRatio: (sinceS: number) => number;
}

/** Draws a change: off in 1 to 3 s with swinging readings, 10 to 60 s of empty scale, then 2 to 5 s of ringing. */
export function drawCylinderSwap(random: Random): CylinderSwap {
  const liftedS = random.uniform(1, 3);
  const setDownS = liftedS + random.uniform(10, 60);
  const ringS = random.uniform(2, 5);
  const restS = setDownS + ringS;
  const swing = random.uniform(0.1, 0.4);
  const ring = random.uniform(0.05, 0.4);
  const hertz = random.uniform(0.8, 3);
  return {
    liftedS,
    setDownS,
    restS,
    durationS: restS + random.uniform(6, 15),
    restingShares: (sinceS) => [sinceS <= 0 ? 1 : Math.max(0, 1 - sinceS / liftedS), sinceS >= setDownS ? 1 : 0],
    swingRatio(sinceS) {
      if (sinceS > 0 && sinceS < liftedS) {
        return swing * (1 - sinceS / liftedS) * Math.sin(2 * Math.PI * hertz * sinceS);
      }
      const rungS = sinceS - setDownS;
      if (rungS < 0 || rungS >= ringS) return 0;
      return ring * Math.exp((-3 * rungS) / ringS) * Math.cos(2 * Math.PI * hertz * rungS) * (1 - rungS / ringS);
    },
  };
}
