import { expect, test } from 'vitest';
import { scaleSeries } from '../../src/store/scale-series.ts';

test('keeps the readings of the scale, one of each moment', () => {
  const elapsedS = Float64Array.of(0, 1, 1, 2, 3);
  expect(scaleSeries(elapsedS, Float64Array.of(9.5, Number.NaN, 9.4, 9.3, Number.NaN))).toEqual({
    elapsedS: Float64Array.of(0, 1, 2),
    scaleKg: Float64Array.of(9.5, 9.4, 9.3),
  });
  // Rows of one moment are of several gauges.
  expect(scaleSeries(Float64Array.of(0, 0, 1), Float64Array.of(9.5, 9.5, 9.4))?.scaleKg).toEqual(
    Float64Array.of(9.5, 9.4),
  );
});

test('nothing where it was not read', () => {
  expect(scaleSeries(Float64Array.of(0, 1), Float64Array.of(Number.NaN, Number.NaN))).toBeUndefined();
});
