import { expect, test } from 'vitest';
import { adaptiveIntegral } from '../../src/numerics/adaptive-integral.ts';

test.each([
  ['e^x', (x: number) => Math.exp(x), 0, 10, Math.exp(10) - 1],
  ['e^(−20x)', (x: number) => Math.exp(-20 * x), 0, 1, (1 - Math.exp(-20)) / 20],
  ['1/√x', (x: number) => 1 / Math.sqrt(x), 1e-4, 1, 2 - 2e-2],
  ['a bend', (x: number) => Math.max(x, 0.37), 0, 1, 0.37 ** 2 + (1 - 0.37 ** 2) / 2],
  ['a constant', () => 3, -1, 1, 6],
])('integrates %s within the tolerance asked for', (_, valueAt, from, to, exact) => {
  for (const tolerance of [1e-3, 1e-6, 1e-9]) {
    const { value, error } = adaptiveIntegral(valueAt, from, to, tolerance);
    expect(Math.abs(value / exact - 1)).toBeLessThan(Math.max(tolerance, 1e-12));
    expect(error / exact).toBeLessThan(Math.max(4 * tolerance, 1e-12));
  }
});

test('runs backwards with the sign changed, and over nothing to 0', () => {
  expect(adaptiveIntegral(Math.exp, 1, 0).value).toBeCloseTo(1 - Math.E, 6);
  expect(adaptiveIntegral(Math.exp, 1, 1).value).toBe(0);
});

test('says so where there is no integral', () => {
  expect(adaptiveIntegral(() => Number.NaN, 0, 1).error).toBeNaN();
});
