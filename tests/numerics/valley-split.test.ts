import fc from 'fast-check';
import { expect, test } from 'vitest';
import { valleySplit } from '../../src/numerics/valley-split.ts';

test.each([
  ['a valley', [5, 3, 1, 2, 4], 2],
  ['only falling', [5, 4, 3], 2],
  ['only rising', [1, 2, 3], 0],
  ['a jump', [3, 2, 2, 9, 9], 2],
  ['one number', [7], 0],
])('%s turns where it should, without a misfit', (_, values, index) => {
  const split = valleySplit(Object.freeze(values));
  expect(split.index).toBe(index);
  expect(split.misfits[index]).toBe(0);
});

test('pools by hand: 3, 1, 2, 0 that never rises is 3, 1.5, 1.5, 0', () => {
  expect(valleySplit([3, 1, 2, 0]).fallingMisfit).toBeCloseTo(0.5, 12);
});

/** Squared residuals of the best never-rising fit, by the min–max formula, for every place: slow and plain. */
function fallingMisfit(values: readonly number[]): number {
  const mean = (from: number, to: number) => values.slice(from, to + 1).reduce((a, b) => a + b, 0) / (to - from + 1);
  return values.reduce((sum, value, i) => {
    let fitted = Number.POSITIVE_INFINITY;
    for (let from = 0; from <= i; from += 1) {
      let most = Number.NEGATIVE_INFINITY;
      for (let to = i; to < values.length; to += 1) most = Math.max(most, mean(from, to));
      fitted = Math.min(fitted, most);
    }
    return sum + (value - fitted) ** 2;
  }, 0);
}

test('every place fits as well as the min–max formula of isotonic regression says', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: -9, max: 9 }), { minLength: 1, maxLength: 12 }), (values) => {
      const split = valleySplit(values);
      expect(split.fallingMisfit).toBeCloseTo(fallingMisfit(values), 8);
      for (const [place, misfit] of split.misfits.entries()) {
        const rising = values.slice(place + 1).reverse();
        expect(misfit).toBeCloseTo(fallingMisfit(values.slice(0, place + 1)) + fallingMisfit(rising), 8);
      }
      expect(split.misfits[split.index]).toBe(Math.min(...split.misfits));
    }),
    { seed: 12 },
  );
});
