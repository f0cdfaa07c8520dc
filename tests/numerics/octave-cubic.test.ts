import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { OctaveCubic, octaveEnds, octavePlaces } from '../../src/numerics/octave-cubic.ts';

const ends = fc
  .record({
    low: fc.double({ min: 1e-3, max: 1e6, noNaN: true }),
    times: fc.double({ min: 2, max: 1000, noNaN: true }),
  })
  .map(({ low, times }) => octaveEnds(low, low * times));

describe('octavePlaces', () => {
  test('are both ends and every sixteenth of an octave between', () => {
    expect(octavePlaces(0.99, 1.125)).toEqual([0.99, 1, 1.0625, 1.125]);
    expect(octavePlaces(31, 34.5)).toEqual([31, 32, 34, 34.5]);
  });

  test('rise throughout, by no more than a sixteenth, and leave no sliver', () => {
    fc.assert(
      fc.property(ends, ([low, high]) => {
        const places = octavePlaces(low, high);
        expect([places[0], places.at(-1)]).toEqual([low, high]);
        for (let i = 1; i < places.length; i += 1) {
          const width = places[i] / places[i - 1] - 1;
          expect(width).toBeLessThanOrEqual(1 / 16);
          expect(width).toBeGreaterThan(0.09 / 32);
        }
      }),
      { seed: 5 },
    );
  });

  test('lose a tenth of an interval at an end at most', () => {
    expect(octaveEnds(0.9999, 1.1251)).toEqual([1, 1.125]);
    expect(octaveEnds(0.99, 1.15)).toEqual([0.99, 1.15]);
  });
});

describe('OctaveCubic', () => {
  const through = (low: number, high: number, f: (x: number) => number) =>
    new OctaveCubic(low, high, octavePlaces(low, high).map(f));

  test('is exact for a cubic, between its points and at them', () => {
    const cubic = through(0.7, 9.3, (x) => x ** 3);
    for (let x = 0.7; x <= 9.3; x += 0.0123) expect(cubic.at(x) / x ** 3).toBeCloseTo(1, 12);
    expect([cubic.at(0.7), cubic.at(1), cubic.at(9.3)]).toEqual([0.7 ** 3, 1, 9.3 ** 3]);
  });

  test('errs as a cubic with exact slopes would: a 384th of the fourth derivative and width', () => {
    const cubic = through(1, 64, Math.log);
    let worst = 0;
    for (let x = 1; x <= 64; x += 0.001) worst = Math.max(worst, Math.abs(cubic.at(x) - Math.log(x)));
    // 6/x⁴ times (x/16)⁴ over 384, twice that where the slopes at the ends have their points on one side alone.
    expect(worst).toBeLessThan(2 * (6 / 16 ** 4 / 384));
    expect(worst).toBeGreaterThan(0.1 * (6 / 16 ** 4 / 384));
  });

  test('rises wherever its points rise, however unevenly', () => {
    fc.assert(
      fc.property(
        ends,
        fc.array(fc.double({ min: 1e-6, max: 1e3, noNaN: true }), { minLength: 200, maxLength: 200 }),
        ([low, high], steps) => {
          let sum = 0;
          const values = octavePlaces(low, high).map((_, i) => (sum += steps[i % steps.length]));
          const cubic = new OctaveCubic(low, high, values);
          let before = -Infinity;
          for (let i = 0; i <= 1000; i += 1) {
            const here = cubic.at(Math.min(high, low + ((high - low) * i) / 1000));
            expect(here).toBeGreaterThanOrEqual(before - 1e-12 * sum);
            before = here;
          }
        },
      ),
      { seed: 7, numRuns: 50 },
    );
  });

  test('wants five places, and a value for each', () => {
    expect(() => new OctaveCubic(1, 1.2, [1, 2, 3, 4])).toThrow(/number of values out of range/);
    expect(() => new OctaveCubic(1, 2, [1, 2, 3, 4, 5])).toThrow('must be 17, one for each place, received 5');
  });

  test('falls as well', () => {
    const cubic = through(1, 10, (x) => -x);
    expect(cubic.at(5.5)).toBeCloseTo(-5.5, 12);
  });

  test('is no number outside its ends', () => {
    for (const high of [4, 4.1]) {
      const cubic = through(1.5, high, (x) => x);
      expect([cubic.at(1.5), cubic.at(high)]).toEqual([1.5, high]);
      for (const x of [1.5 - 1e-9, high + 1e-9, 0, -2, Number.NaN, Number.POSITIVE_INFINITY])
        expect(cubic.at(x)).toBeNaN();
    }
  });
});
