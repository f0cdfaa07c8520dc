import { fromInterchange } from '../../units/unit.ts';
import type { Facts } from '../../records/tables/facts.ts';
import type { Drawn } from './weigh-in.ts';

// Common practice, no source.
/** The series of a scale and what was written down differ by a unit where their ratio is within this of one [ratio]. */
const near = 0.03;
/** Pounds, grams and ounces in a kilogram. */
const perKilogram = (['lb', 'g', 'oz'] as const).map((unit) => fromInterchange(1, unit));
/** No job puts in so many times what the system wants, and no less than so much [kg]. */
const absurdTimes = 4;
const absurdKg = 3;

/**
 * Why a mass cannot be: the scale was in another unit than the column says, or it is more than any system like this takes.
 *
 * @param targetKg what the system wants, or its factory charge; undefined where neither is known
 */
export function massProblem(
  { kg, enteredKg, seriesKg, isTrimmed }: Drawn,
  measured: Partial<Facts>,
  targetKg: number | undefined,
): 'scale-unit' | 'absurd-mass' | undefined {
  if (measured.scale_problem === 'unit') return 'scale-unit';
  if (enteredKg !== undefined && seriesKg !== undefined && enteredKg > 0 && seriesKg > 0) {
    const ratio = seriesKg / enteredKg;
    if (perKilogram.some((unit) => isNear(ratio, unit) || isNear(ratio, 1 / unit))) return 'scale-unit';
  }
  // More may be let out again than went in, but not more than there was.
  if (kg < (isTrimmed ? -(targetKg ?? 0) : 0)) return 'absurd-mass';
  return targetKg !== undefined && kg > Math.max(absurdKg, absurdTimes * targetKg) ? 'absurd-mass' : undefined;
}

function isNear(ratio: number, unit: number): boolean {
  return Math.abs(ratio / unit - 1) < near;
}
