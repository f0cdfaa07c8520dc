import { fromInterchange } from '../../units/unit.ts';
import type { Facts } from '../../records/tables/facts.ts';
import type { HoseResidual } from './hose-residual.ts';
import type { Drawn } from './weigh-in.ts';

// Common practice, no source.
/** The series of a scale and what was written down differ by a unit where their ratio is within this of one [ratio]. */
const near = 0.03;
/** Pounds, grams and ounces in a kilogram. */
const perKilogram = (['lb', 'g', 'oz'] as const).map((unit) => fromInterchange(1, unit));
/** No job puts in so many times what the system wants, and no less than so much [kg]. */
const absurdTimes = 4;
const absurdKg = 3;
/** More stayed in the hoses than was drawn where the scale does not explain it: so many standard uncertainties. */
const surely = 4;

/**
 * Why a mass cannot be: the scale was in another unit than the column says, it is more than any system like this takes, or less
 * than what is said to have stayed in the hoses.
 *
 * @param targetKg what the system wants, or its factory charge; undefined where neither is known
 */
export function massProblem(
  { kg, uncertaintyKg, enteredKg, seriesKg, isTrimmed }: Drawn,
  residual: HoseResidual,
  measured: Partial<Facts>,
  targetKg: number | undefined,
): 'scale-unit' | 'absurd-mass' | 'absurd-residual' | undefined {
  if (measured.scale_problem === 'unit') return 'scale-unit';
  if (enteredKg !== undefined && seriesKg !== undefined && enteredKg > 0 && seriesKg > 0) {
    const ratio = seriesKg / enteredKg;
    if (perKilogram.some((unit) => isNear(ratio, unit) || isNear(ratio, 1 / unit))) return 'scale-unit';
  }
  // More may be let out again than went in, but not more than there was.
  if (kg < (isTrimmed ? -(targetKg ?? 0) : 0)) return 'absurd-mass';
  if (targetKg !== undefined && kg > Math.max(absurdKg, absurdTimes * targetKg)) return 'absurd-mass';
  return residual.kg > kg + surely * uncertaintyKg ? 'absurd-residual' : undefined;
}

function isNear(ratio: number, unit: number): boolean {
  return Math.abs(ratio / unit - 1) < near;
}
