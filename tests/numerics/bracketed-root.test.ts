import { expect, test } from 'vitest';
import { bracketedRoot } from '../../src/numerics/bracketed-root.ts';

test.each([
  ['x² − 2', (x: number) => x * x - 2, 0, 2, Math.SQRT2],
  ['cos x − x (its root from memory)', (x: number) => Math.cos(x) - x, 0, 1, 0.7390851332151607],
  ['a triple root', (x: number) => (x - 0.3) ** 3, -1, 4, 0.3],
  ['a wall: e^(50x) − 2', (x: number) => Math.exp(50 * x) - 2, -1, 3, Math.LN2 / 50],
  ['a jump', (x: number) => (x < 0.7 ? -1 : 1), 0, 1, 0.7],
  ['far from 1', (x: number) => x * 1e9 - 1, 0, 1, 1e-9],
])('finds the root of %s, whichever end comes first', (_, valueAt, from, to, root) => {
  expect(Math.abs(bracketedRoot(valueAt, from, to) / root - 1)).toBeLessThan(2e-12);
  expect(Math.abs(bracketedRoot(valueAt, to, from) / root - 1)).toBeLessThan(2e-12);
});

test('takes no more than 12 looks at a smooth function, and 110 at a jump', () => {
  let looks = 0;
  bracketedRoot((x) => (looks += 1) && x ** 3 - 2 * x - 5, 2, 3);
  expect(looks).toBeLessThanOrEqual(12);
  looks = 0;
  bracketedRoot((x) => (looks += 1) && (x < 0.7 ? -1 : 1), 0, 1);
  expect(looks).toBeLessThanOrEqual(110);
});

test('an end may be the root', () => {
  expect(bracketedRoot((x) => x, 0, 1)).toBe(0);
  expect(bracketedRoot((x) => x - 1, 0, 1)).toBe(1);
});

test('where nothing crosses zero, or a value is no number, there is no root', () => {
  expect(bracketedRoot((x) => x * x + 1, -1, 1)).toBeNaN();
  expect(bracketedRoot(() => Number.NaN, -1, 1)).toBeNaN();
  expect(bracketedRoot((x) => (Math.abs(x) < 0.9 ? Number.NaN : x), -1, 1)).toBeNaN();
});
