import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { wilsonInterval } from '../../src/numerics/wilson-interval.ts';

const rows = readFileSync(new URL('../references/newcombe-1998/values.csv', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .slice(1)
  .map((line) => line.split(',').slice(0, 5).map(Number) as [number, number, number, number, number]);

describe('wilsonInterval', () => {
  test('has the eight rows to be held against', () => {
    expect(rows).toHaveLength(8);
  });

  test.each(rows)('reproduces %i of %i, Newcombe 1998, method 3', (successes, trials, low, high, tolerance) => {
    const interval = wilsonInterval(successes, trials);
    expect(Math.abs(interval.low - low)).toBeLessThanOrEqual(tolerance);
    expect(Math.abs(interval.high - high)).toBeLessThanOrEqual(tolerance);
  });

  test('mirrors: k of n and n − k of n', () => {
    for (let trials = 1; trials <= 40; trials++) {
      for (let successes = 0; successes <= trials; successes++) {
        const interval = wilsonInterval(successes, trials);
        const mirrored = wilsonInterval(trials - successes, trials);
        expect(interval.low).toBeCloseTo(1 - mirrored.high, 12);
        expect(interval.low).toBeGreaterThanOrEqual(0);
        expect(interval.low).toBeLessThanOrEqual(successes / trials);
        expect(interval.high).toBeGreaterThanOrEqual(successes / trials);
        expect(interval.high).toBeLessThanOrEqual(1);
      }
    }
  });

  test('narrows with more trials at the same share', () => {
    const width = (trials: number) => {
      const interval = wilsonInterval(trials / 4, trials);
      return interval.high - interval.low;
    };
    expect(width(40)).toBeLessThan(width(20));
    expect(width(400)).toBeLessThan(width(40));
  });

  test('knows nothing where nothing was looked at', () => {
    expect(wilsonInterval(0, 0)).toEqual({ low: 0, high: 1 });
  });

  test.each([
    [1, 0],
    [-1, 10],
    [11, 10],
    [0.5, 10],
    [1, 2.5],
    [0, -1],
    [Number.NaN, 10],
  ])('refuses %d of %d', (successes, trials) => {
    expect(() => wilsonInterval(successes, trials)).toThrow(/out of range: must be a whole number/);
  });

  test('refuses a normal quantile that is not above 0', () => {
    expect(() => wilsonInterval(1, 2, 0)).toThrow(
      'normal quantile out of range: must be above 0 and finite, received 0',
    );
  });
});
