import { describe, expect, test } from 'vitest';
import { Random } from '../../src/numerics/random.ts';

const many = 200_000;

function moments(draw: () => number): { mean: number; variance: number; skewness: number; kurtosis: number } {
  const values = Array.from({ length: many }, draw);
  const mean = values.reduce((sum, value) => sum + value, 0) / many;
  const central = (power: number) => values.reduce((sum, value) => sum + (value - mean) ** power, 0) / many;
  const variance = central(2);
  return { mean, variance, skewness: central(3) / variance ** 1.5, kurtosis: central(4) / variance ** 2 };
}

describe('Random', () => {
  test('repeats by seed, and differs by seed and by stream', () => {
    const first = (seed: number, stream?: number) => {
      const random = new Random(seed, stream);
      return Array.from({ length: 8 }, () => random.uniform());
    };
    expect(first(7)).toEqual(first(7));
    expect(first(7)).not.toEqual(first(8));
    expect(first(7, 1)).not.toEqual(first(7, 2));
    expect(first(7, 1)).not.toEqual(first(8, 1));
  });

  test('streams of one seed are unlike each other from their first draw on', () => {
    const first = Array.from({ length: 20_000 }, (_, stream) => new Random(1, stream).uniform());
    expect(new Set(first).size).toBeGreaterThan(19_990);
    const mean = first.reduce((sum, value) => sum + value, 0) / first.length;
    expect(Math.abs(mean - 0.5)).toBeLessThan(4 * Math.sqrt(1 / 12 / first.length));
    const lagged = first.slice(1).reduce((sum, value, index) => sum + (value - 0.5) * (first[index] - 0.5), 0);
    expect(Math.abs((lagged / first.length) * 12)).toBeLessThan(4 / Math.sqrt(first.length));
  });

  test('steps as xoshiro128**: state 1, 2, 3, 4 gives 11520, 0, 5927040, 70819200 (the reference code’s first words, from memory)', () => {
    const random = Random.fromState(1, 2, 3, 4);
    const words = Array.from({ length: 4 }, () => random.uniform() * 4294967296);
    expect(words).toEqual([11520, 0, 5927040, 70819200]);
  });

  // Bounds are four standard errors of each moment at this many draws.
  test('uniform has mean 1/2, variance 1/12, no skew', () => {
    const random = new Random(1);
    const { mean, variance, skewness } = moments(() => random.uniform());
    expect(Math.abs(mean - 0.5)).toBeLessThan(4 * Math.sqrt(1 / 12 / many));
    expect(Math.abs(variance - 1 / 12)).toBeLessThan(4 * Math.sqrt(1 / 180 / many));
    expect(Math.abs(skewness)).toBeLessThan(0.02);
  });

  test('normal has mean 0, variance 1, skewness 0, kurtosis 3', () => {
    const random = new Random(2);
    const { mean, variance, skewness, kurtosis } = moments(() => random.normal());
    expect(Math.abs(mean)).toBeLessThan(4 / Math.sqrt(many));
    expect(Math.abs(variance - 1)).toBeLessThan(4 * Math.sqrt(2 / many));
    expect(Math.abs(skewness)).toBeLessThan(4 * Math.sqrt(6 / many));
    expect(Math.abs(kurtosis - 3)).toBeLessThan(4 * Math.sqrt(24 / many));
  });

  test('exponential has its mean, and that mean as deviation', () => {
    const random = new Random(3);
    const { mean, variance } = moments(() => random.exponential(5));
    expect(Math.abs(mean - 5)).toBeLessThan((4 * 5) / Math.sqrt(many));
    expect(Math.abs(Math.sqrt(variance) - 5)).toBeLessThan(0.1);
  });

  test('integer reaches both ends alike, weighted keeps its weights, choice its items', () => {
    const random = new Random(4);
    const drawn = Array.from({ length: 30_000 }, () => random.integer(-1, 1));
    for (const value of [-1, 0, 1]) {
      const share = drawn.filter((one) => one === value).length / drawn.length;
      expect(Math.abs(share - 1 / 3)).toBeLessThan(4 * Math.sqrt(2 / 9 / drawn.length));
    }
    expect(new Set(drawn).size).toBe(3);
    let heavy = 0;
    for (let draw = 0; draw < 30_000; draw++) if (random.weighted({ light: 1, heavy: 3 }) === 'heavy') heavy++;
    expect(Math.abs(heavy / 30_000 - 0.75)).toBeLessThan(4 * Math.sqrt((0.75 * 0.25) / 30_000));
    expect(['x', 'y']).toContain(random.choice(['x', 'y']));
    expect(random.chance(0)).toBe(false);
    expect(random.chance(1)).toBe(true);
  });
});
