import { beforeAll, describe, expect, test } from 'vitest';
import type { Claim } from './claim.ts';
import { discrimination } from './whole-fleet/callback-claims.ts';
import { fleetClaims } from './whole-fleet/fleet-claims.ts';
import { withJudgedFleet } from './whole-fleet/judged-fleet.ts';
import { type Named, namedClaims } from './whole-fleet/named-claims.ts';

// A small version of the part `whole-fleet` of `npm run truth`, whose limits leave room for chance.

describe('a fleet of 200 jobs with mishaps, from its files to its findings', () => {
  let claims: readonly Claim[];
  beforeAll(async () => {
    ({ claims } = await withJudgedFleet({ jobs: 200, seed: 5, mishaps: true }, () => undefined, fleetClaims));
  }, 60_000);

  test.each<[what: string, cases: number, least: number, most: number]>([
    ['isolation found at its place: recall', 80, 0.75, 1],
    ['isolation end within max(5 s, 2.5 intervals)', 80, 0.96, 1],
    ['isolations invented', 3, 0, 0],
    ['pulls right', 90, 0.9, 1],
    ['shape right or undecided', 80, 0.92, 1],
    ['shape wrong', 80, 0, 0.06],
    ['leak interval holds the truth, all isolated', 80, 0.93, 1],
    ['drop interval holds the truth', 40, 0.88, 1],
    ['tight systems failed', 30, 0, 0.05],
    ['deviation interval holds the truth', 90, 0.87, 1],
    ['slip invented on clean jobs', 80, 0, 0.05],
    ['superheat interval holds the truth', 20, 0.8, 1],
    ['clock: a jump seen where there is none', 100, 0, 0.02],
    ['wrong-unit: one seen where there is none', 100, 0, 0.02],
    ['honest jobs matched with another honest job', 100, 0, 0],
    ['all checks, logs as they were recorded: of what is told fail right', 40, 0.9, 1],
    ['all checks, logs as they were recorded: of what is told pass right', 1000, 0.98, 1],
  ])('%s: of %d and more, %d to %d', (what, cases, least, most) => {
    const claim = claims.find((one) => one.what === what);
    expect(claim?.cases).toBeGreaterThanOrEqual(cases);
    expect(claim?.figure).toBeGreaterThanOrEqual(least);
    expect(claim?.figure).toBeLessThanOrEqual(most);
  });

  test('mishaps are there to be found, and some are', () => {
    const recalls = [
      ['any fault, seen by any check of the recording: recall', 0.4],
      ['copied vacuum curves, jobs found with the one that they are of: recall', 0.1],
    ] as const;
    for (const [what, least] of recalls) {
      const claim = claims.find((one) => one.what === what);
      expect(claim?.cases).toBeGreaterThanOrEqual(3);
      expect(claim?.figure).toBeGreaterThan(least);
    }
  });

  test('what the product says that it cannot tell is not counted as right', () => {
    const untold = claims.filter(({ notTold }) => (notTold ?? 0) > 0);
    expect(untold.length).toBeGreaterThan(5);
    for (const { what, cases, figure, notTold = 0 } of untold.filter((one) => one.what.endsWith(': recall')))
      expect([what, figure * cases <= cases - notTold + 1e-9]).toEqual([what, true]);
  });
});

test('a name that is given wrongly costs recall of the one and precision of the other, one that is not given recall alone', () => {
  const named = (truth: string, found: string | undefined): Named => ({
    plan: { seed: 1, number: 1, kind: truth },
    truth,
    found,
    isUntold: found === undefined,
    says: '',
  });
  const all = [named('a', 'a'), named('a', 'b'), named('a', undefined), named('b', 'b')];
  expect(namedClaims('of', all, ['a', 'b']).map(({ figure, cases, notTold }) => [figure, cases, notTold])).toEqual([
    [1 / 3, 3, 1],
    [1, 1, undefined],
    [1, 1, 0],
    [1 / 2, 2, undefined],
  ]);
});

test('scores that order certain chances right discriminate fully, others by half', () => {
  expect(discrimination([3, 1, 2], [1, 0, 0])).toBe(1);
  expect(discrimination([1, 2, 3], [1, 0, 0])).toBe(0);
  expect(discrimination([1, 1, 1], [1, 0, 0])).toBe(0.5);
  // Of two with chances of 0.8 and 0.2 the pair that tells them apart is right 0.64 against 0.04.
  expect(discrimination([2, 1], [0.8, 0.2])).toBeCloseTo(0.64 / 0.68, 12);
});
