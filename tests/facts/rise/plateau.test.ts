import { describe, expect, test } from 'vitest';
import type { MakeUp } from '../../../src/facts/rise/make-up.ts';
import { plateau } from '../../../src/facts/rise/plateau.ts';
import { fitted, isolatedRise, outgassing, saturating, shareOf } from './isolated-rise.ts';

describe('simulated rises', () => {
  test.each([
    [30, 200, 900],
    [300, 600, 900],
    [100, 1500, 900],
  ])('without noise: %d Pa in %d s, seen for %d s', (pa, timeS, testS) => {
    const { samples, makeUp } = fitted(isolatedRise((s) => 40 + saturating(pa, timeS)(s), { testS }));
    // Measured: 0.11 %.
    expect(Math.abs((plateau(samples, makeUp, 1)?.pa ?? 0) / (40 + pa) - 1)).toBeLessThan(0.002);
  });

  test('an equalisation that came before counts as risen', () => {
    const at = (s: number) => 40 + saturating(8, 4)(s) + saturating(30, 200)(s);
    const { samples, makeUp } = fitted(isolatedRise(at));
    expect(plateau(samples, makeUp, 1)?.pa).toBeCloseTo(78, 0);
  });

  test('a leak beside it does not', () => {
    const at = (s: number) => 40 + 0.1 * s + saturating(60, 120)(s);
    const { samples, makeUp } = fitted(isolatedRise(at, { testS: 1800 }));
    expect(plateau(samples, makeUp, 1)?.pa).toBeCloseTo(100, 0);
  });

  test('nothing that saturates, no plateau', () => {
    for (const at of [(s: number) => 40 + 0.1 * s, (s: number) => 40 + outgassing(60, 1200)(s), () => 40]) {
      const { samples, makeUp } = fitted(isolatedRise(at));
      expect(plateau(samples, makeUp, 1)).toBeUndefined();
    }
  });

  test('seen in its first tenth only, it may level anywhere above', () => {
    const at = (s: number) => 40 + saturating(300, 3000)(s);
    const { samples } = fitted(isolatedRise(at, { testS: 300, noiseRatio: 0.01 }));
    const levelling: MakeUp = { leakPaPerS: 0, parts: [{ part: 'saturating', timeS: 3000, size: 1 }] };
    const found = plateau(samples, levelling, 1);
    expect(found?.highPa).toBe(Number.POSITIVE_INFINITY);
    expect(found?.lowPa).toBeLessThan(340);
  });
  test.each([
    [300, 600, 0.01],
    [30, 200, 0.002],
    [30, 400, 0.005],
  ])('the interval holds the truth: %d Pa in %d s, noise %d', (pa, timeS, noiseRatio) => {
    const held = shareOf(100, (seed) => {
      const { samples, makeUp, fit } = fitted(isolatedRise((s) => 40 + saturating(pa, timeS)(s), { noiseRatio, seed }));
      const found = plateau(samples, makeUp, fit.scale);
      return found !== undefined && found.lowPa <= 40 + pa && found.highPa >= 40 + pa;
    });
    expect(held).toBeGreaterThanOrEqual(0.91);
  });
});
