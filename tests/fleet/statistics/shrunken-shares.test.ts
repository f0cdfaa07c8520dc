import fc from 'fast-check';
import { expect, test } from 'vitest';
import { logBeta } from '../../../src/numerics/beta-distribution.ts';
import { overDispersion } from '../../../src/fleet/statistics/over-dispersion.ts';
import {
  fitShareSpread,
  type ShareSpread,
  shrunkenShare,
  type Tally,
} from '../../../src/fleet/statistics/shrunken-shares.ts';
import { referenceRows } from '../../reference-rows.ts';

const rats: Tally[] = referenceRows('bayesian-data-analysis').map(({ tumours, rats: jobs }) => ({
  found: tumours,
  jobs,
}));

test('reproduces the beta distribution of the rat tumours, 71 groups', () => {
  expect(rats).toHaveLength(71);
  const spread = fitShareSpread(rats);
  expect(spread?.alpha).toBeCloseTo(2.3416, 4);
  expect(spread?.beta).toBeCloseTo(14.1148, 4);
});

test('reproduces mean and deviation of the rates of the earlier groups, Bayesian Data Analysis, chapter 5', () => {
  const rates = rats.slice(0, 70).map(({ found, jobs }) => found / jobs);
  const mean = rates.reduce((sum, rate) => sum + rate, 0) / 70;
  expect(mean).toBeCloseTo(0.136, 4);
  expect(Math.sqrt(rates.reduce((sum, rate) => sum + (rate - mean) ** 2, 0) / 69)).toBeCloseTo(0.1035, 4);
});

test('reproduces the new group of 4 of 14 under the published distribution: Beta(5.4, 18.6)', () => {
  expect(shrunkenShare({ found: 4, jobs: 14 }, { alpha: 1.4, beta: 8.6 }).share).toBeCloseTo(0.225, 3);
});

test('reproduces what is kept of the distance from the mean, and the shrunken shares, Efron and Morris 1977', () => {
  const batters = referenceRows('efron-morris-1977');
  expect(batters).toHaveLength(18);
  const mean = batters.reduce((sum, { hits }) => sum + hits, 0) / (18 * 45);
  expect(mean).toBeCloseTo(0.265, 3);
  const error = Math.sqrt((mean * (1 - mean)) / 45);
  const scores = batters.map(({ hits }) => (hits / 45 - mean) / error);
  // The factor of James and Stein about a mean that is told from the shares too: over-dispersion less three units.
  const { ratio } = overDispersion(scores, new Float64Array(18).fill(error), 0);
  const kept = 1 - (18 - 3) / (18 * ratio);
  expect(kept).toBeCloseTo(0.2117, 4);
  // A beta distribution that counts as so many jobs keeps as much.
  const jobs = (45 * (1 - kept)) / kept;
  const spread = { alpha: mean * jobs, beta: (1 - mean) * jobs };
  for (const { hits, shrunken_share } of batters)
    expect(shrunkenShare({ found: hits, jobs: 45 }, spread).share).toBeCloseTo(shrunken_share, 3);
});

const likelihood = (tallies: readonly Tally[], { alpha, beta }: ShareSpread) =>
  tallies.reduce((sum, { found, jobs }) => sum + logBeta(alpha + found, beta + jobs - found) - logBeta(alpha, beta), 0);

test('no distribution nearby is likelier', () => {
  const tally = fc.nat(60).chain((jobs) => fc.nat(jobs).map((found) => ({ found, jobs })));
  fc.assert(
    fc.property(fc.array(tally, { minLength: 2, maxLength: 40 }), (tallies) => {
      const spread = fitShareSpread(tallies);
      if (spread === undefined) return;
      const best = likelihood(tallies, spread);
      const all = spread.alpha + spread.beta;
      for (const mean of [0.97, 1.03])
        for (const jobs of [0.9, 1, 1.1]) {
          const alpha = Math.min(0.999 * all, mean * spread.alpha) * jobs;
          const near = { alpha, beta: all * jobs - alpha };
          // Where units differ not at all, or as much as can be, the best lies at the end of what is looked at.
          if (jobs !== 1 && (all > 0.99e6 || all < 0.051)) continue;
          expect(likelihood(tallies, near)).toBeLessThanOrEqual(best + 1e-6);
        }
    }),
    { numRuns: 300 },
  );
});

test('who has no jobs is believed to be like all; who has many, as found', () => {
  const spread = { alpha: 2, beta: 8 };
  expect(shrunkenShare({ found: 0, jobs: 0 }, spread).share).toBe(0.2);
  expect(shrunkenShare({ found: 5000, jobs: 10_000 }, spread).share).toBeCloseTo(0.5, 3);
});

test('nothing tells how units differ where none or all have it, or nobody has a job', () => {
  expect(fitShareSpread([])).toBeUndefined();
  expect(fitShareSpread([{ found: 0, jobs: 0 }])).toBeUndefined();
  expect(fitShareSpread([{ found: 0, jobs: 9 }])).toBeUndefined();
  expect(fitShareSpread([{ found: 9, jobs: 9 }])).toBeUndefined();
});
