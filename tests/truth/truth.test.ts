import { describe, expect, test } from 'vitest';
import { blindnessClaims } from './blindness-claims.ts';
import type { Claim } from './claim.ts';
import { drawTrial } from './draw-trial.ts';
import { holdClaims } from './hold-claims.ts';
import { isolationClaims } from './isolation-claims.ts';
import { leakClaims } from './leak-claims.ts';
import { plateauClaims } from './plateau-claims.ts';
import { shapeClaims } from './shape-claims.ts';
import { trialResult } from './trial-result.ts';

const seeds = [1, 2, 3];
const results = seeds.flatMap((seed) =>
  Array.from({ length: 800 }, (_, index) => trialResult(drawTrial(seed, index + 1))),
);
const groups: readonly (readonly Claim[])[] = [
  isolationClaims(results),
  holdClaims(results),
  shapeClaims(results),
  leakClaims(results),
  plateauClaims(results),
  blindnessClaims(results),
];

/** A claim, of a group's head where its name starts with "…", with limits just outside what was measured. */
interface Limit {
  readonly head: string;
  readonly what?: string;
  /** Fewest trials that it rests on. */
  readonly cases: number;
  readonly least?: number;
  readonly most?: number;
}

// Of 2400 trials; the goals themselves are asked of 1500 and more by `npm run truth`. A share of 0.95 of 1200 is good to ± 0.013.
const limits: readonly Limit[] = [
  { head: 'isolation start within max(5 s, 2.5 intervals)', cases: 2200, least: 0.92 },
  {
    head: 'isolation start within max(5 s, 2.5 intervals)',
    what: '… or its interval is wider and holds it',
    cases: 2200,
    least: 0.99,
  },
  { head: 'isolation start within max(5 s, 2.5 intervals)', what: '… marked alone', cases: 1000, least: 0.995 },
  { head: 'isolation end within max(5 s, 2.5 intervals)', cases: 2200, least: 0.995 },
  { head: 'isolations missed', cases: 2200, most: 0.01 },
  { head: 'isolations invented', cases: 100, most: 0 },
  { head: 'pulls right', cases: 2400, least: 0.99 },
  { head: 'hold at or below the target × gain within 15 s or 5 %', cases: 1600, least: 0.95 },
  { head: 'shape right or undecided', cases: 2200, least: 0.975 },
  { head: 'shape right', cases: 2200, least: 0.53 },
  { head: 'shape wrong', cases: 2200, most: 0.02 },
  { head: 'shape wrong, though not near a border (parts ± 25 %)', cases: 2200, most: 0.01 },
  { head: 'leak rate, true shape leak: median error against truth × gain', cases: 550, most: 0.02 },
  {
    head: 'leak rate, every job whose leak its test could tell (true rate at least the smallest visible one)',
    cases: 220,
    most: 0.02,
  },
  { head: 'leak rate, true shape mixed: median error against truth × gain', cases: 350, most: 0.12 },
  { head: 'leak interval holds the truth, leaking jobs', cases: 1100, least: 0.93, most: 0.97 },
  { head: 'leak interval holds the truth, all isolated', cases: 2200, least: 0.94, most: 0.97 },
  { head: 'leak interval holds the truth, modelled alone', cases: 1900, least: 0.95, most: 0.97 },
  { head: 'plateau interval stated, wall water only', cases: 250, least: 0.95 },
  { head: 'plateau interval holds the truth', cases: 240, least: 0.93 },
  { head: 'smallest visible leak, seen when it is there', cases: 420, least: 0.75, most: 0.85 },
  { head: 'smallest visible leak, seen when it is there', what: '… seen where there is none', cases: 420, most: 0.025 },
];

describe('against the truth of 2400 drawn evacuations', () => {
  test.each(limits.map((limit) => [titleOf(limit), limit] as const))('%s', (_, { head, what, cases, least, most }) => {
    const claim = claimOf(head, what);
    expect(claim.cases).toBeGreaterThanOrEqual(cases);
    expect(claim.figure).toBeGreaterThanOrEqual(least ?? Number.NEGATIVE_INFINITY);
    expect(claim.figure).toBeLessThanOrEqual(most ?? Number.POSITIVE_INFINITY);
  });
});

test('the same trials come out the same', () => {
  const plan = drawTrial(1, 7);
  expect(trialResult(plan).facts).toEqual(results[6].facts);
  expect(drawTrial(2, 7)).not.toEqual(plan);
});

function titleOf({ head, what, least, most }: Limit): string {
  const goal = claimOf(head, what).goal;
  const here = [least === undefined ? '' : `≥ ${least}`, most === undefined ? '' : `≤ ${most}`]
    .filter(Boolean)
    .join(', ');
  return `${head}${what === undefined ? '' : ` ${what}`}: ${here}${goal === '' ? '' : ` (goal ${goal})`}`;
}

function claimOf(head: string, what: string = head): Claim {
  for (const claims of groups) {
    const from = claims.findIndex((claim) => claim.what === head);
    const found = from < 0 ? undefined : claims.slice(from).find((claim) => claim.what === what);
    if (found !== undefined) return found;
  }
  throw new Error(`no claim ${head} ${what}`);
}
