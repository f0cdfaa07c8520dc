import type { CylinderWeighing } from './cylinder-record.ts';
import { placingKg } from './placing.ts';
import type { ExpectedWeight, Shown } from './shown-weight.ts';

/** Which of the two weights of a weighing is wrong, what it should be [kg], and what tells so. */
export interface MendedWeight {
  readonly which: 'start' | 'end';
  readonly kg: number;
  readonly by: 'series' | 'record';
}

/** A weighing's two weights as they count [kg]. */
export interface CountedWeights {
  readonly startKg: number;
  readonly endKg: number;
  readonly mended: MendedWeight | null;
}

export interface MendOptions {
  readonly shown: Shown;
  readonly expected: ExpectedWeight | null;
  /** What the scale shows next with this cylinder on it; undefined where nothing comes after [kg]. */
  readonly nextKg: number | undefined;
  readonly tareKg: number | null;
}

/**
 * The two weights, one of them mended where another figure of the mass tells otherwise and the weighings before and after agree with
 * that one.
 *
 * A weight that leaves less than nothing in the cylinder, or takes more than was in it, is no mend.
 */
export function mendedWeights(
  weighing: CylinderWeighing,
  { shown, expected, nextKg, tareKg }: MendOptions,
): CountedWeights {
  const { startKg, endKg, otherKg, otherFrom, stepKg } = weighing;
  const written = { startKg, endKg, mended: null };
  if (otherKg === null || otherFrom === null || Math.abs(startKg - endKg - otherKg) <= apartKg(stepKg)) return written;
  const isNear = (one: number, other: number) => Math.abs(one - other) <= apartKg(stepKg) + 3.29 * placingKg;
  // As if the whole cylinder stood on it.
  const offKg = shown === 'content' ? (tareKg ?? 0) : 0;
  const [mendedStartKg, mendedEndKg] = [endKg + otherKg, startKg - otherKg];
  const startFits = shown !== 'zeroed' && expected !== null && isNear(startKg + offKg, expected.kg);
  const next = nextKg === undefined ? undefined : nextWhole(nextKg, [endKg + offKg, mendedEndKg + offKg], tareKg);
  const endFits = next !== undefined && isNear(endKg + offKg, next);
  const isHeld = shown === 'zeroed' || mendedEndKg + offKg >= 0.97 * (tareKg ?? 0) - placingKg;
  const isThere = shown === 'zeroed' || expected === null || Math.abs(otherKg) <= expected.kg;
  const fitsNext = next === undefined ? otherFrom === 'series' : isNear(mendedEndKg + offKg, next);
  if (startFits && !endFits && fitsNext && isHeld && isThere)
    return { startKg, endKg: mendedEndKg, mended: { which: 'end', kg: mendedEndKg, by: otherFrom } };
  const fitsBefore = expected !== null && isNear(mendedStartKg + offKg, expected.kg);
  if (!startFits && fitsBefore && (endFits || next === undefined))
    return { startKg: mendedStartKg, endKg, mended: { which: 'start', kg: mendedStartKg, by: otherFrom } };
  return written;
}

/** Further than this from either figure, the next weight tells nothing of them [kg]. Common practice, no source. */
const farKg = 0.3;

/** The next weight as if the whole cylinder stood on the scale; undefined where the scale seems to have been set to 0. */
function nextWhole(nextKg: number, figures: readonly number[], tareKg: number | null): number | undefined {
  const apart = (kg: number) => Math.min(...figures.map((figure) => Math.abs(kg - figure)));
  const withTareKg = nextKg + (tareKg ?? 0);
  const nearestKg = apart(withTareKg) < apart(nextKg) ? withTareKg : nextKg;
  return apart(nearestKg) > farKg && nextKg < (tareKg ?? farKg) ? undefined : nearestKg;
}

/** Two figures of one mass differ by no more [kg]. */
function apartKg(stepKg: number): number {
  return 3 * stepKg + 0.01;
}
