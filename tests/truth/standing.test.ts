import { describe, expect, test } from 'vitest';
import { drawStandingTrial } from './draw-standing-trial.ts';
import { standingClaims } from './standing-claims.ts';
import { standingTrial } from './standing-trial.ts';

const seeds = [1, 2];
const results = seeds.flatMap((seed) =>
  Array.from({ length: 500 }, (_, index) => standingTrial(drawStandingTrial(seed, index + 1))),
);
const claims = standingClaims(results);

/** Limits just outside what was measured; the goals themselves are asked of 1500 tests by `npm run truth`. */
const limits: readonly (readonly [head: string, cases: number, least: number, most: number])[] = [
  ['standing hold found, both ends within max(5 s, 2.5 intervals)', 1000, 0.97, 1],
  ['standing tests judged, where the pipe was logged', 800, 0.99, 1],
  ['drop interval holds the truth', 800, 0.93, 0.97],
  ['tight systems failed', 400, 0, 0.01],
  ['tight systems failed, pipe not logged', 50, 0, 0],
  ['leaking systems failed, pipe not logged', 50, 0, 0],
  // A share of 0.8 of 400 is good to ± 0.04.
  ['smallest visible drop, found when it is there', 400, 0.75, 0.85],
  ['twice that drop, found', 400, 0.95, 1],
];

describe('against the truth of 1000 drawn standing tests', () => {
  test.each(limits)('%s: of %d and more, %d to %d', (head, cases, least, most) => {
    const claim = claims.find(({ what }) => what === head);
    expect(claim?.cases).toBeGreaterThanOrEqual(cases);
    expect(claim?.figure).toBeGreaterThanOrEqual(least);
    expect(claim?.figure).toBeLessThanOrEqual(most);
  });
});

test('the same tests come out the same', () => {
  const plan = drawStandingTrial(1, 7);
  expect(standingTrial(plan).facts).toEqual(results[6].facts);
  expect(drawStandingTrial(2, 7)).not.toEqual(plan);
});
