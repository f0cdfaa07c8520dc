import type { PressureHold } from '../../traces/pressure-holds.ts';

// Common practice, no source.
/** A hold is at full pressure from this share of the highest one on, as gauge pressure: a strength test may go above it … */
const fullShare = 0.7;
/** … and from this share of the pressure that the record asks for. */
const targetShare = 0.95;
/** After a vacuum a hold is of nitrogen where it reaches this share of the highest before; else refrigerant was let in. */
const againShare = 0.97;
/** A last hold counts where it is as long as asked, within a twentieth, or as the longest: what is shorter is on the way down. */
const lengthShare = 0.95;
/** Where the record asks for no time [s]. */
const usualHoldS = 900;

/**
 * The hold that judges a standing pressure test: the last one at full pressure, since what came before was mended.
 *
 * @param atmospherePa of the site [Pa]; @param asked what the record asks for: pressure, absolute [Pa], and time [s]
 */
export function judgedHold(
  holds: readonly PressureHold[],
  atmospherePa: number,
  { targetPa, askedS = usualHoldS }: { readonly targetPa?: number | undefined; readonly askedS?: number | undefined },
): PressureHold | undefined {
  const gaugePa = (hold: PressureHold) => hold.startPa - atmospherePa;
  const highest = (some: readonly PressureHold[]) => some.reduce((most, hold) => Math.max(most, gaugePa(hold)), 0);
  const isAsked = targetPa !== undefined && targetPa > atmospherePa;
  const beforePa = againShare * highest(holds.filter(({ isAfterVacuum }) => !isAfterVacuum));
  const leastAgainPa = isAsked ? Math.min(beforePa, targetShare * (targetPa - atmospherePa)) : beforePa;
  const ofNitrogen = holds.filter((hold) => !hold.isAfterVacuum || gaugePa(hold) >= leastAgainPa);
  const highestPa = highest(ofNitrogen);
  const wantedPa = isAsked ? targetShare * (targetPa - atmospherePa) : Number.POSITIVE_INFINITY;
  const leastPa = highestPa >= wantedPa ? wantedPa : fullShare * highestPa;
  const full = ofNitrogen.filter((hold) => gaugePa(hold) >= leastPa);
  const longestS = full.reduce((longest, { startS, endS }) => Math.max(longest, endS - startS), 0);
  return full.findLast(({ startS, endS }) => endS - startS >= lengthShare * Math.min(askedS, longestS));
}
