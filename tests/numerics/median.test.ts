import fc from 'fast-check';
import { expect, test } from 'vitest';
import { median } from '../../src/numerics/median.ts';

test.each([
  [[3, 1, 2], 2],
  [[4, 1, 3, 2], 2.5],
  [[7], 7],
  [[1, 1, 1, 100], 1],
  [[-5, -1, -3], -3],
  [[10, 9, 2], 9],
  [[1, Number.POSITIVE_INFINITY, 2], 2],
])('%o: %d', (values, middle) => {
  expect(median(Object.freeze(values))).toBe(middle);
});

test('of none there is none', () => {
  expect(median([])).toBeNaN();
});

test('as many lie below as above, in any order', () => {
  fc.assert(
    fc.property(fc.array(fc.double({ noNaN: true, min: -1e6, max: 1e6 }), { minLength: 1 }), (values) => {
      const middle = median(values);
      expect(values.filter((value) => value < middle).length).toBeLessThanOrEqual(values.length / 2);
      expect(values.filter((value) => value > middle).length).toBeLessThanOrEqual(values.length / 2);
      expect(median([...values].reverse())).toBe(middle);
    }),
    { seed: 1 },
  );
});

test('it is the middle of a sort to the bit, with NaN, −0 and infinities too', () => {
  const few = [Number.NaN, -0, 0, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 1, 2];
  const number = fc.oneof(fc.constantFrom(...few), fc.constantFrom(1, 2), fc.double({ noNaN: true }));
  fc.assert(
    fc.property(fc.array(number, { minLength: 1, maxLength: 40 }), (values) => {
      const sorted = Float64Array.from(values).sort();
      const middle = sorted.length >> 1;
      expect(median(values)).toBe(sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2);
    }),
    { seed: 3 },
  );
});
