import fc from 'fast-check';
import { expect, test } from 'vitest';
import { decimate } from '../../src/traces/decimate.ts';

test('keeps the lowest and the highest of every stretch', () => {
  expect(decimate([1, 5, 2, 8, 3, 3], 4)).toEqual([0, 1, 3, 4]);
});

test('keeps all where all fit, but nothing that was not read', () => {
  expect(decimate([1, Number.NaN, 2], 3)).toEqual([0, 2]);
  expect(decimate([Number.NaN, Number.NaN, Number.NaN], 2)).toEqual([]);
});

test('no peak is lost: highest and lowest of the whole stay, in order, and no more than asked for', () => {
  const value = fc.oneof(
    { weight: 8, arbitrary: fc.double({ min: 0, max: 1000, noNaN: true }) },
    fc.constantFrom(Number.NaN, Number.POSITIVE_INFINITY),
  );
  fc.assert(
    fc.property(fc.array(value, { minLength: 1, maxLength: 300 }), fc.integer({ min: 2, max: 60 }), (values, most) => {
      const kept = decimate(values, most);
      const read = values.filter((one) => !Number.isNaN(one));
      expect(kept.length).toBeLessThanOrEqual(most);
      expect(kept.every((index, at) => at === 0 || index > kept[at - 1])).toBe(true);
      expect(kept.some((index) => Number.isNaN(values[index]))).toBe(false);
      if (read.length === 0) return;
      const shown = kept.map((index) => values[index]);
      expect([Math.min(...shown), Math.max(...shown)]).toEqual([Math.min(...read), Math.max(...read)]);
    }),
    { seed: 2, numRuns: 300 },
  );
});
