import { hosePullKg } from '../facts/charge/weigh-in.ts';
import type { CylinderWeighing } from './cylinder-record.ts';

/** What a scale shows: cylinder and content, the content alone, or what it was set to 0 with. */
export type Shown = 'whole' | 'content' | 'zeroed';

/** What the scale should show with cylinder and content on it, and how well that is known [kg, kg²]. */
export interface ExpectedWeight {
  readonly kg: number;
  readonly variance: number;
}

// What follows is common practice, no source.
/** A scale that shows less than this was set to 0 with a cylinder on it, where nothing tells what it should show [kg]. */
const leastWholeKg = 0.5;
/** A scale that was set to 0 shows no more than what a hose pulls [kg], or two steps. */
const zeroKg = hosePullKg;

/**
 * What a scale shows before a weighing, by what it should show.
 *
 * @param shownBefore what it showed at the weighing before
 */
export function shownWeight(
  { startKg, stepKg }: CylinderWeighing,
  expected: ExpectedWeight | null,
  tareKg: number | null,
  shownBefore: Shown,
): Shown {
  if (expected === null) return startKg < (tareKg === null ? leastWholeKg : 0.9 * tareKg) ? 'zeroed' : 'whole';
  const wholeKg = Math.abs(startKg - expected.kg);
  const contentKg = tareKg === null ? Number.POSITIVE_INFINITY : Math.abs(startKg + tareKg - expected.kg);
  const isZero = Math.abs(startKg) <= Math.max(2 * stepKg, zeroKg);
  if (isZero && contentKg > hosePullKg) return 'zeroed';
  if (tareKg === null || contentKg >= wholeKg) return 'whole';
  const isNear = contentKg <= 2 * hosePullKg + 3 * Math.sqrt(expected.variance);
  // Who took the empty weight off once does so again: what is missing then may be much.
  return isNear || (shownBefore === 'content' && contentKg < 0.5 * tareKg) ? 'content' : 'whole';
}

/**
 * The weight of the empty cylinder where none is on record: what the first weighing shows beyond the content.
 *
 * @param boughtKg what was in it when it came [kg]
 * @param weighings in the order of time
 * @returns null where no weighing shows the whole cylinder [kg]
 */
export function emptyWeightKg(boughtKg: number, weighings: readonly CylinderWeighing[]): number | null {
  let contentKg = boughtKg;
  for (const { startKg, endKg } of weighings) {
    const emptyKg = startKg - contentKg;
    if (startKg > leastWholeKg && emptyKg > Math.max(1, 0.2 * boughtKg)) return emptyKg;
    contentKg -= startKg - endKg;
  }
  return null;
}
