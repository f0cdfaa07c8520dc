import fc from 'fast-check';
import { expect, test } from 'vitest';
import { falseDiscoveryShares } from '../../../src/fleet/statistics/false-discovery.ts';

test('as the step-up rule decides: all up to the largest k with p(k) ≤ k·q/m', () => {
  const chance = fc.double({ min: 0, max: 1, noNaN: true });
  fc.assert(
    fc.property(fc.array(chance, { minLength: 1, maxLength: 40 }), chance, (chances, q) => {
      const sorted = chances.toSorted((a, b) => a - b);
      const k = sorted.findLastIndex((p, index) => p <= ((index + 1) * q) / sorted.length);
      const shares = falseDiscoveryShares(chances);
      for (const [index, p] of chances.entries()) {
        const isTold = k >= 0 && p <= sorted[k];
        // On the border the two ways round differently.
        if (Math.abs(shares[index] - q) > 1e-12) expect(shares[index] <= q).toBe(isTold);
      }
    }),
  );
});

test('what was not tested counts not among the tests', () => {
  expect([...falseDiscoveryShares([0.01, Number.NaN, 0.04])]).toEqual([0.02, Number.NaN, 0.04]);
});
