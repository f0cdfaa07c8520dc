import type { Texture } from './texture.ts';

// Common practice, no source; set on simulated fleets (tests/copies).
/** Two curves are one if their likeness exceeds chance by so many of its standard deviations: no two honest ones of a million jobs do. */
export const leastLikeness = 6.5;
/** What is left of a curve that is cut at worst. */
const leastCut = 0.6;
/**
 * One that turns less often, in all and for each reading that tells, comes from a gauge that shows no noise: its steps alone fall like
 * those of any smooth curve. Of usual gauges one curve in two hundred turns so seldom.
 */
const fewestTurns = 12;
const fewestTurnsShare = 0.1;
/** Share of these turns in a curve that was cut. */
const turnsLeft = 0.4;

/** Whether a curve has a face of its own: if it stood in another job, even cut to three fifths, it would show. */
export function hasFace(texture: Texture): boolean {
  return leastCut * texture.effective >= leastLikeness ** 2 && hasTurns(texture, 1);
}

/** Whether a curve may be what is left of one with a face: it is kept to be found, though nothing is claimed of it. */
export function isLeftOfFace(texture: Texture): boolean {
  return texture.effective >= leastLikeness ** 2 && hasTurns(texture, turnsLeft);
}

function hasTurns({ telling, turns }: Texture, ratio: number): boolean {
  return turns >= ratio * Math.max(fewestTurns, fewestTurnsShare * telling);
}
