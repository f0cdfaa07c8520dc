import { expect, test } from 'vitest';
import { excessChances, fewestJobs } from '../../src/fleet/excess-chances.ts';
import type { UnitTally } from '../../src/fleet/unit-counts.ts';
import { binomialShareUpTo } from '../../src/numerics/binomial-distribution.ts';

const tally = (found: number, jobs: number, share: number): UnitTally => ({
  found,
  jobs,
  expected: share * jobs,
  byChance: share * (1 - share) * jobs,
  variance: share * (1 - share) * jobs,
  notEvaluated: 0,
  missing: 0,
});

test.each([
  [0, 40, 0.1],
  [4, 40, 0.1],
  [12, 40, 0.1],
  [30, 60, 0.3],
  [45, 60, 0.3],
  [3, 200, 0.004],
])('%d of %d at %d lies between the binomial chances of more, and of as many or more', (found, jobs, share) => {
  const of = tally(found, jobs, share);
  const { chances } = excessChances([of]);
  expect(chances[0]).toBeGreaterThanOrEqual(1 - binomialShareUpTo(found, jobs, share));
  expect(chances[0]).toBeLessThanOrEqual(1 - binomialShareUpTo(found - 1, jobs, share));
});

test('nothing is said of too few jobs, nor of who cannot be compared with anybody', () => {
  const [few, enough] = [tally(5, fewestJobs - 1, 0.3), tally(5, fewestJobs, 0.3)];
  const { chances } = excessChances([few, enough, { ...enough, variance: 5 * enough.byChance }]);
  expect(Array.from(chances, Number.isNaN)).toEqual([true, false, true]);
});

test('what is well known of other people makes a chance less, what is badly known makes it more', () => {
  const of = tally(28, 60, 0.3);
  const [sure, usual, unsure] = [0.7, 1, 1.6].map(
    (times) => excessChances([{ ...of, variance: times * of.byChance }]).chances[0],
  );
  expect(sure).toBeLessThan(usual);
  expect(usual).toBeLessThan(unsure);
});

test('units that differ by chance alone are not taken to differ; who stands out among them still does', () => {
  const shares = [14, 15, 16, 17, 18, 18, 19, 19, 20, 20, 22, 40];
  const tallies = shares.map((found) => tally(found, 60, 0.3));
  const { chances, usualVariance } = excessChances(tallies);
  expect(usualVariance).toBe(0);
  expect(chances[11]).toBeLessThan(1e-7);
});

test('where all differ much, who differs as others do does not stand out', () => {
  const shares = [2, 4, 6, 9, 12, 15, 18, 22, 26, 30, 33, 36];
  const tallies = shares.map((found) => tally(found, 60, 0.3));
  const { chances, usualVariance } = excessChances(tallies);
  expect(usualVariance).toBeGreaterThan(0.1);
  expect(chances[11]).toBeGreaterThan(1e-3);
});

test('over-dispersion is not told from a few units', () => {
  const tallies = [2, 9, 30, 45].map((found) => tally(found, 60, 0.3));
  expect(excessChances(tallies).usualVariance).toBe(0);
});
