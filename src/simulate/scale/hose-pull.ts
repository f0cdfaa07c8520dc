import type { Random } from '../../numerics/random.ts';

/**
 * A hose that comes to pull at the cylinder, or to lie on it, from one moment to the next.
 *
 * Places run from 0 to 3: 0 to 1 is the plateau before the charge, 1 to 2 the flow, 2 to 3 the plateau after.
 */
export interface HosePull {
  readonly shiftKg: number;
  readonly fromPlace: number;
  /** Infinity where it stays. */
  readonly toPlace: number;
}

/** Draws a pull of 15 to 90 g up or down; half of them stay. */
export function drawHosePull(random: Random): HosePull {
  const shiftKg = random.uniform(0.015, 0.09) * (random.chance(0.5) ? 1 : -1);
  const fromPlace = random.uniform(0.15, 2.7);
  const lastsPlaces = random.uniform(0.15, 0.8);
  return { shiftKg, fromPlace, toPlace: random.chance(0.5) ? Number.POSITIVE_INFINITY : fromPlace + lastsPlaces };
}

/** What the pull adds to the display at a place [kg]. */
export function pullKg(pull: HosePull | undefined, place: number): number {
  return pull !== undefined && place >= pull.fromPlace && place < pull.toPlace ? pull.shiftKg : 0;
}

/**
 * How much more leaves the cylinder than the display says [kg]: what the pull changed between the beginning and the end
 * of the flow. Who charges by the display puts that much too much in.
 */
export function unseenKg(pull: HosePull | undefined): number {
  return pullKg(pull, 2) - pullKg(pull, 1);
}
