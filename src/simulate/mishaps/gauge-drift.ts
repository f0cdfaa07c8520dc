import type { Random } from '../../numerics/random.ts';

/** How a gauge drifts under way. */
export interface GaugeDrift {
  /** Steadily [1/s]. */
  readonly driftPerS: number;
  /** Spread of its random walk over one second [ratio]. */
  readonly walkRatio: number;
}

/** Slow drift of a gauge: a straight line and a random walk, as ratio of the reading. To be asked in the order of time. */
export function gaugeDrift({ driftPerS, walkRatio }: GaugeDrift, random: Random): (elapsedS: number) => number {
  let walked = 0;
  let lastS = 0;
  return (elapsedS) => {
    walked += random.normal(0, walkRatio * Math.sqrt(Math.max(0, elapsedS - lastS)));
    lastS = elapsedS;
    return walked + driftPerS * elapsedS;
  };
}
