import type { PressureHold } from '../../traces/pressure-holds.ts';

// Common practice, no source.
/** A hold is at full pressure from this share of the highest one on, as gauge pressure: a strength test may go above it … */
const fullShare = 0.85;
/** … and from this share of the pressure that the record asks for. */
const targetShare = 0.95;
/** A last hold counts where it is at least this share of the longest one: what is shorter is on the way down. */
const lengthShare = 0.25;

/**
 * The hold that judges a standing pressure test: the last one at full pressure, since what came before was mended.
 *
 * @param atmospherePa of the site [Pa]; @param targetPa what the record asks for, absolute [Pa]
 */
export function judgedHold(
  holds: readonly PressureHold[],
  atmospherePa: number,
  targetPa: number | undefined,
): PressureHold | undefined {
  const gaugePa = (hold: PressureHold) => hold.startPa - atmospherePa;
  const highestPa = Math.max(...holds.map(gaugePa));
  const wantedPa = targetShare * ((targetPa ?? Number.POSITIVE_INFINITY) - atmospherePa);
  const leastPa = highestPa >= wantedPa ? wantedPa : fullShare * highestPa;
  const full = holds.filter((hold) => gaugePa(hold) >= leastPa);
  const longestS = Math.max(...full.map(({ startS, endS }) => endS - startS));
  return full.findLast(({ startS, endS }) => endS - startS >= lengthShare * longestS);
}
