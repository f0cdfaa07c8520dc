import { expect, test } from 'vitest';
import { usable } from '../../src/traces/vacuum-series.ts';

const series = (...pa: number[]) => ({
  gauge: 'g',
  elapsedS: Float64Array.from(pa, (_, index) => index),
  vacuumPa: Float64Array.from(pa),
});

test('where all readings say something the series is the same one', () => {
  const all = series(3, 2, 0, Number.POSITIVE_INFINITY);
  expect(usable(all)).toBe(all);
});

test('what was not read, and what no absolute pressure can be, is left out with its time', () => {
  const { gauge, elapsedS, vacuumPa } = usable(series(3, Number.NaN, 2, -1, Number.POSITIVE_INFINITY, 0));
  expect([gauge, [...elapsedS], [...vacuumPa]]).toEqual(['g', [0, 2, 4, 5], [3, 2, Number.POSITIVE_INFINITY, 0]]);
});

test('nothing but 0 is nothing', () => {
  expect(usable(series(0, 0, Number.NaN)).vacuumPa).toHaveLength(0);
  expect(usable(series()).vacuumPa).toHaveLength(0);
});
