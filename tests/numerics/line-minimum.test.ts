import { expect, test } from 'vitest';
import { lineMinimum } from '../../src/numerics/line-minimum.ts';

test.each([
  ['ahead', 0, 1],
  ['behind', 40, 1],
  ['at the start', 3, 1],
  ['within the first stride', 2.9, 5],
] as const)('a parabola, its minimum %s', (_, start, stride) => {
  const found = lineMinimum((x) => (x - 3) ** 2 + 7, start, stride);
  expect(found?.at).toBeCloseTo(3, 6);
  expect(found?.value).toBeCloseTo(7, 12);
});

test('a lopsided valley, against its derivative', () => {
  // d/dx (eˣ − 5x) = 0 at ln 5.
  expect(lineMinimum((x) => Math.exp(x) - 5 * x, -3, 0.5)?.at).toBeCloseTo(Math.log(5), 6);
});

test('the nearer of two valleys', () => {
  const found = lineMinimum((x) => Math.cos(x), 4, 0.3);
  expect(found?.at).toBeCloseTo(Math.PI, 6);
});

test('no minimum, no answer', () => {
  expect(lineMinimum((x) => -x, 0, 1)).toBeUndefined();
  expect(lineMinimum(Math.exp, 0, 1)?.value ?? 0).toBeLessThan(1e-12);
});
