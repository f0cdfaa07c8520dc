import { describe, expect, test } from 'vitest';
import { adaptiveIntegral } from '../../src/numerics/adaptive-integral.ts';

/** The integral and how often the function was looked at. */
function counted(...[valueAt, ...rest]: Parameters<typeof adaptiveIntegral>) {
  let looks = 0;
  const counting = (x: number) => {
    looks += 1;
    return valueAt(x);
  };
  return { ...adaptiveIntegral(counting, ...rest), looks: () => looks };
}

test.each([
  ['e^x', (x: number) => Math.exp(x), 0, 10, Math.exp(10) - 1],
  ['e^(−20x)', (x: number) => Math.exp(-20 * x), 0, 1, (1 - Math.exp(-20)) / 20],
  ['1/√x', (x: number) => 1 / Math.sqrt(x), 1e-4, 1, 2 - 2e-2],
  ['a bend', (x: number) => Math.max(x, 0.37), 0, 1, 0.37 ** 2 + (1 - 0.37 ** 2) / 2],
  ['a jump', (x: number) => (x < 0.37 ? 1 : 3), 0, 1, 0.37 + 3 * 0.63],
  ['a constant', () => 3, -1, 1, 6],
])('integrates %s within the tolerance asked for', (_, valueAt, from, to, exact) => {
  for (const tolerance of [1e-3, 1e-6, 1e-9]) {
    const { value, error, converged, looks } = counted(valueAt, from, to, tolerance);
    expect(Math.abs(value / exact - 1)).toBeLessThan(Math.max(tolerance, 1e-12));
    expect(error / exact).toBeLessThanOrEqual(tolerance);
    expect(converged).toBe(true);
    expect(looks()).toBeLessThan(2500);
  }
});

describe('where the sign changes', () => {
  // Exact integral of the function, and of its size.
  test.each([
    ['a sine over its period, 0', Math.sin, 0, 2 * Math.PI, 0, 4],
    ['a sine over its period, from elsewhere', Math.sin, 0.3, 0.3 + 2 * Math.PI, 0, 4],
    ['16 waves', (x: number) => Math.cos(10 * x), 0, 10, Math.sin(100) / 10, 20 / Math.PI],
    ['x³ about 0', (x: number) => x ** 3, -1, 1, 0, 0.5],
    ['x³ off 0', (x: number) => x ** 3, -1, 2, 3.75, 4.25],
    ['a jump through 0', (x: number) => Math.sign(x - 0.3), -1, 1, -0.6, 2],
    ['nothing at all', () => 0, 0, 1, 0, 0],
  ])('integrates %s', (_, valueAt, from, to, exact, size) => {
    for (const tolerance of [1e-3, 1e-6, 1e-9]) {
      const { value, converged, looks } = counted(valueAt, from, to, tolerance);
      expect(Math.abs(value - exact)).toBeLessThanOrEqual(tolerance * size);
      expect(converged).toBe(true);
      expect(looks()).toBeLessThan(8000);
    }
  });
});

test('runs backwards with the sign changed, and over nothing to 0', () => {
  expect(adaptiveIntegral(Math.exp, 1, 0).value).toBeCloseTo(1 - Math.E, 6);
  expect(adaptiveIntegral(Math.exp, 1, 0).converged).toBe(true);
  expect(adaptiveIntegral(Math.exp, 1, 1).value).toBe(0);
});

test('says so where there is no integral', () => {
  for (const valueAt of [() => Number.NaN, () => Number.POSITIVE_INFINITY, (x: number) => 1 / Math.sqrt(x)]) {
    expect(adaptiveIntegral(valueAt, 0, 1).converged).toBe(false);
  }
  expect(adaptiveIntegral(() => Number.NaN, 0, 1).error).toBeNaN();
});

test('gives up where it is asked for more than numbers hold, with an error that covers what is missing', () => {
  const { value, error, converged, looks } = counted(Math.sin, 0, 2 * Math.PI, 1e-17);
  expect(converged).toBe(false);
  expect(looks()).toBeGreaterThan(20_000);
  expect(looks()).toBeLessThan(20_200);
  expect(Math.abs(value)).toBeLessThanOrEqual(error);
});
