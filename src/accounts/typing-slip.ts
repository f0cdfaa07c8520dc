/** A slip of the hand by which one written figure becomes another. */
export type TypingSlip = 'digits-swapped' | 'digit-wrong' | 'point-moved';

/**
 * The slip of the hand that makes one figure of another, where one alone does.
 *
 * That two figures differ so is a hint, no proof: of two weights that have nothing to do with each other some in ten do.
 *
 * @param written a weight as written [kg], 0 or more
 * @param meant the weight that was to be expected [kg]
 * @param withinKg by so much the weight that was meant may be off
 * @example typingSlip(12.53, 12.35, 0.004) // 'digits-swapped'
 */
export function typingSlip(written: number, meant: number, withinKg: number): TypingSlip | null {
  const isNear = (value: number) => Math.abs(value - meant) <= withinKg;
  if (isNear(written) || written <= 0 || meant <= 0) return null;
  // Figures and a point, each one character long.
  const digits = String(Math.round(written * 1000) / 1000).split('');
  const places = digits.flatMap((sign, at) => (sign === '.' ? [] : [at]));
  for (const [order, at] of places.entries()) {
    const next = places[order + 1];
    if (next === undefined) continue;
    const swapped = [...digits];
    [swapped[at], swapped[next]] = [digits[next], digits[at]];
    if (isNear(Number(swapped.join('')))) return 'digits-swapped';
  }
  for (const at of places) {
    for (let digit = 0; digit <= 9; digit += 1) {
      const changed = digits.with(at, String(digit)).join('');
      if (isNear(Number(changed))) return 'digit-wrong';
    }
  }
  return isNear(written * 10) || isNear(written / 10) ? 'point-moved' : null;
}
