import type { Random } from '../../numerics/random.ts';

/** Share of figures that are not what the scale showed: common practice, no source. */
const WRONG_SHARE = 0.015;

/** What a technician writes down of a drop of the scale [kg]: what it was, now and then rounded to 0.1 kg or mistyped. */
export function writtenFigureKg(random: Random, dropKg: number): number {
  const wrong = random.chance(WRONG_SHARE);
  const how = random.weighted({ rounded: 0.5, swapped: 0.3, digit: 0.2 });
  if (!wrong) return dropKg;
  const roundedKg = Math.round(dropKg * 10) / 10;
  if (how === 'rounded' && roundedKg > 0 && roundedKg !== dropKg) return roundedKg;
  const digits = dropKg.toFixed(3).split('');
  if (how === 'swapped' && digits.at(-3) !== digits.at(-2)) {
    digits.splice(-3, 2, digits.at(-2) as string, digits.at(-3) as string);
    return Number(digits.join(''));
  }
  digits.splice(-3, 1, String((Number(digits.at(-3)) + random.integer(1, 9)) % 10));
  return Number(digits.join(''));
}
