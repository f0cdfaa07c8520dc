import fc from 'fast-check';
import { expect, test } from 'vitest';
import { betaQuantile, betaShareBelow, logBeta } from '../../src/numerics/beta-distribution.ts';
import { binomialQuantile, binomialShareUpTo } from '../../src/numerics/binomial-distribution.ts';
import { digamma, logGamma, trigamma } from '../../src/numerics/gamma-function.ts';

const euler = 0.577_215_664_901_532_9;

test('the gamma function of whole and half numbers is what its definition says', () => {
  let factorial = 1;
  let half = Math.sqrt(Math.PI);
  for (let n = 1; n <= 60; n += 1) {
    expect(logGamma(n)).toBeCloseTo(Math.log(factorial), 11);
    expect(logGamma(n - 0.5)).toBeCloseTo(Math.log(half), 11);
    factorial *= n;
    half *= n - 0.5;
  }
  expect(logGamma(0)).toBeNaN();
  expect(logGamma(-1.5)).toBeNaN();
});

test('digamma and trigamma of 1 and 1/2 have their closed forms, and each step its own difference', () => {
  expect(digamma(1)).toBeCloseTo(-euler, 13);
  expect(digamma(0.5)).toBeCloseTo(-euler - 2 * Math.LN2, 13);
  expect(trigamma(1)).toBeCloseTo(Math.PI ** 2 / 6, 13);
  expect(trigamma(0.5)).toBeCloseTo(Math.PI ** 2 / 2, 13);
  fc.assert(
    fc.property(fc.double({ min: 1e-3, max: 1e5, noNaN: true }), (x) => {
      expect(digamma(x + 1) - digamma(x)).toBeCloseTo(1 / x, x < 0.1 ? 9 : 11);
      expect(trigamma(x) - trigamma(x + 1)).toBeCloseTo(1 / x ** 2, x < 0.1 ? 6 : 11);
    }),
  );
});

test('a beta distribution of whole numbers is a binomial sum', () => {
  const choose = (n: number, k: number) => Math.exp(logGamma(n + 1) - logGamma(k + 1) - logGamma(n - k + 1));
  for (const [trials, chance] of [
    [1, 0.3],
    [12, 0.5],
    [45, 0.07],
    [200, 0.93],
  ]) {
    let sum = 0;
    for (let successes = 0; successes <= trials; successes += 1) {
      sum += choose(trials, successes) * chance ** successes * (1 - chance) ** (trials - successes);
      expect(binomialShareUpTo(successes, trials, chance)).toBeCloseTo(sum, 10);
    }
  }
});

test.each([
  // Clopper–Pearson intervals as Newcombe 1998 (from memory, and computed) has them: the ends are beta quantiles.
  [81, 263, 0.2527, 0.3676],
  [0, 20, 0, 0.1684],
])('reproduces the exact interval of %i of %i, Newcombe 1998, method 5', (found, jobs, low, high) => {
  expect(betaQuantile(0.025, found, jobs - found + 1) || 0).toBeCloseTo(low, 4);
  expect(betaQuantile(0.975, found + 1, jobs - found)).toBeCloseTo(high, 4);
});

test('mirrored, inverted and at its ends the distribution agrees with itself', () => {
  const shape = fc.double({ min: 0.05, max: 5000, noNaN: true });
  const share = fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true });
  fc.assert(
    fc.property(share, shape, shape, (x, a, b) => {
      expect(betaShareBelow(x, a, b) + betaShareBelow(1 - x, b, a)).toBeCloseTo(1, 9);
      const at = betaQuantile(x, a, b);
      // Where nearly all of it lies at an end, the numbers beside the end are too few to tell.
      if (at > 1e-12 && at < 1 - 1e-6) expect(betaShareBelow(at, a, b)).toBeCloseTo(x, 7);
    }),
    { numRuns: 300 },
  );
  expect([betaShareBelow(0, 2, 3), betaShareBelow(1, 2, 3)]).toEqual([0, 1]);
  expect([betaQuantile(0, 2, 3), betaQuantile(1, 2, 3)]).toEqual([0, 1]);
  expect(betaShareBelow(0.5, 0, 3)).toBeNaN();
  expect(logBeta(2, 3)).toBeCloseTo(-Math.log(12), 12);
});

test('a binomial quantile is the first number whose share is enough', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 300 }),
      fc.double({ min: 0.001, max: 0.999, noNaN: true }),
      (trials, chance) => {
        for (const share of [0.001, 0.025, 0.5, 0.975, 0.999]) {
          const at = binomialQuantile(share, trials, chance);
          expect(binomialShareUpTo(at, trials, chance)).toBeGreaterThanOrEqual(share);
          expect(at === 0 || binomialShareUpTo(at - 1, trials, chance) < share).toBe(true);
        }
      },
    ),
  );
});
