import { describe, expect, test } from 'vitest';
import type { Claim } from '../truth/claim.ts';
import { alike, jobMix, onePerson, sharedGear } from './fleet-claims.ts';

/** Claims by their names, on fewer fleets than `npm run fleet-power` draws. */
const byName = (claims: readonly Claim[]) => new Map(claims.map((claim) => [claim.what, claim.figure]));

describe('people who are all alike', () => {
  // 3 to 6 % of 300 fleets each.
  test.each(alike(11, 25).filter(({ goal }) => goal !== ''))('$what: $figure', ({ figure }) => {
    expect(figure).toBeLessThanOrEqual(0.2);
  });
});

describe('one person who differs', () => {
  const claims = byName(onePerson(12, 25, [12]));
  test.each([
    ['odds × 3 at 0.3, 60 jobs, 12 people, 1 skill: stands out', 0.7],
    ['odds × 3 at 0.3, 60 jobs, 12 people, 7 skills: stands out', 0.5],
    ['odds × 2 at 0.2, 180 jobs, 12 people, 1 skill: stands out', 0.7],
    ['odds × 2 at 0.2, 180 jobs, 12 people, 7 skills: stands out', 0.45],
    ['odds × 3 at 0.3, 60 jobs, 12 people, 7 skills: laid to the person, of those who stand out', 0.7],
  ])('%s: %d at least', (what, least) => {
    expect(claims.get(what)).toBeGreaterThanOrEqual(least);
  });
  test.each([...claims].filter(([what]) => what.includes('anybody else')))('%s: %d', (_, figure) => {
    expect(figure).toBeLessThanOrEqual(0.2);
  });
});

describe('a hose that a crew shares', () => {
  const claims = byName(sharedGear(13, 25));
  test.each([...claims].filter(([what]) => what.includes('laid to hose') || what.includes('not separable')))(
    '%s: %d',
    (_, figure) => {
      expect(figure).toBeGreaterThanOrEqual(0.75);
    },
  );
  test.each([...claims].filter(([what]) => what.includes('blamed')))('%s: %d', (_, figure) => {
    expect(figure).toBeLessThanOrEqual(0.15);
  });
});

test.each(jobMix(14, 25))('$what: $figure', ({ figure }) => {
  expect(figure).toBeLessThanOrEqual(0.15);
});
