import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { holdAtOrBelow, holdLadder } from '../../src/facts/hold-ladder.ts';
import { MICRON_PA } from './synthetic-log.ts';

const series = (elapsedS: number[], microns: number[]) => ({
  gauge: null,
  elapsedS: Float64Array.from(elapsedS),
  vacuumPa: Float64Array.from(microns, (micron) => micron * MICRON_PA),
});

describe('holdLadder', () => {
  // By hand: readings every 10 s; at or below 500 µm from 20 to 60 s, half of the step into it; at or below 300 µm from 30 to 50.
  const log = series([0, 10, 20, 30, 40, 50, 60], [5000, 900, 450, 290, 280, 290, 400]);
  const ladder = holdLadder(log, 0, 6, undefined);

  test.each([
    [500, 45],
    [300, 30],
    [250, 0],
    [1000, 55],
    [5000, 60],
  ])('at or below %d µm for %d s', (micron, heldS) => {
    expect(holdAtOrBelow(ladder, micron * MICRON_PA)).toBeCloseTo(heldS, 9);
  });

  test('a target of the job gets a rung of its own, and one that is a rung already does not', () => {
    expect(holdAtOrBelow(holdLadder(log, 0, 6, 285 * MICRON_PA), 285 * MICRON_PA)).toBeCloseTo(10, 9);
    expect(holdLadder(log, 0, 6, 66.66).length).toBe(ladder.length);
  });

  test('a target between rungs has the hold of the rung below, a lower bound; below the ladder none', () => {
    expect(holdAtOrBelow(ladder, 499.5 * MICRON_PA)).toBeCloseTo(45, 9); // 500 µm, however it was rounded
    expect(holdAtOrBelow(ladder, 450 * MICRON_PA)).toBe(holdAtOrBelow(ladder, 400 * MICRON_PA));
    expect(holdAtOrBelow(ladder, 20 * MICRON_PA)).toBeUndefined();
  });

  test('one noisy reading above the target costs one interval, not the hold', () => {
    const noisy = series([0, 10, 20, 30, 40, 50, 60], [400, 400, 400, 520, 400, 400, 400]);
    expect(holdAtOrBelow(holdLadder(noisy, 0, 6, undefined), 500 * MICRON_PA)).toBeCloseTo(50, 9);
  });

  test('of a gap of an hour five minutes count', () => {
    const gapped = series([0, 10, 3610, 3620], [400, 400, 400, 400]);
    expect(holdAtOrBelow(holdLadder(gapped, 0, 3, undefined), 500 * MICRON_PA)).toBeCloseTo(10 + 300 + 10, 9);
    const into = series([0, 10, 3610, 3620], [40_000, 40_000, 400, 400]);
    expect(holdAtOrBelow(holdLadder(into, 0, 3, undefined), 500 * MICRON_PA)).toBeCloseTo(150 + 10, 9);
  });

  test('only the readings asked for count', () => {
    expect(holdAtOrBelow(holdLadder(log, 4, 5, undefined), 300 * MICRON_PA)).toBeCloseTo(10, 9);
    expect(holdAtOrBelow(holdLadder(log, 3, 3, undefined), 5000 * MICRON_PA)).toBe(0);
  });

  test('a gauge above its range holds nothing', () => {
    const over = series([0, 10, 20], [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY]);
    expect(holdLadder(over, 0, 2, undefined).every(([, heldS]) => heldS === 0)).toBe(true);
  });

  test('never falls from rung to rung, and never exceeds the time there is', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 1, max: 9000, noNaN: true }), { minLength: 2, maxLength: 40 }),
        (microns) => {
          const rungs = holdLadder(
            series(
              microns.map((_, index) => 3 * index),
              microns,
            ),
            0,
            microns.length - 1,
            undefined,
          );
          const times = rungs.map(([, heldS]) => heldS);
          expect([...times].sort((a, b) => a - b)).toEqual(times);
          expect(times.at(-1)).toBeLessThanOrEqual(3 * (microns.length - 1) + 1e-9);
        },
      ),
      { seed: 4 },
    );
  });
});
