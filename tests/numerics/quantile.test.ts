import { expect, test } from 'vitest';
import { quantile } from '../../src/numerics/quantile.ts';

test('reproduces type 7 of Hyndman and Fan: position (n − 1) p, straight between', () => {
  // By hand: of 1, 2, 3, 5 the place of 0.25 is 0.75, of 0.9 it is 2.7.
  expect(quantile([5, 1, 3, 2], 0.25)).toBeCloseTo(1.75, 12);
  expect(quantile([5, 1, 3, 2], 0.9)).toBeCloseTo(4.4, 12);
  expect([quantile([5, 1, 3, 2], 0), quantile([5, 1, 3, 2], 1)]).toEqual([1, 5]);
});

test('of none it is NaN, of one that one, and the values stay as they are', () => {
  const values = [3, 1, 2];
  expect(quantile([], 0.5)).toBeNaN();
  expect(quantile([7], 0.3)).toBe(7);
  quantile(values, 0.5);
  expect(values).toEqual([3, 1, 2]);
});
