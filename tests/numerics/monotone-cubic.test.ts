import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { MonotoneCubic } from '../../src/numerics/monotone-cubic.ts';

describe('MonotoneCubic', () => {
  test('goes through its points, and is exact for a line and a parabola', () => {
    const parabola = Array.from({ length: 9 }, (_, i) => (i + 1) ** 2);
    const cubic = new MonotoneCubic(1, 9, parabola);
    for (let x = 1; x <= 9; x += 0.125) expect(cubic.at(x)).toBeCloseTo(x * x, 12);
  });

  test('errs by a 384th of the fourth derivative and step, as a cubic through exact slopes would', () => {
    const n = 40;
    const h = 2 / n;
    const cubic = new MonotoneCubic(
      0,
      2,
      Array.from({ length: n + 1 }, (_, i) => Math.exp(i * h)),
    );
    let worst = 0;
    for (let x = 0; x <= 2; x += 0.001) worst = Math.max(worst, Math.abs(cubic.at(x) - Math.exp(x)) / Math.exp(x));
    expect(worst).toBeLessThan((3 * h ** 4) / 384);
  });

  test('rises wherever its points rise', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 1e-6, max: 1e3, noNaN: true }), { minLength: 4, maxLength: 30 }),
        (steps) => {
          let sum = 0;
          const values = [0, ...steps.map((step) => (sum += step))];
          const cubic = new MonotoneCubic(0, values.length - 1, values);
          let before = -1e-12;
          for (let x = 0; x <= values.length - 1; x += 1 / 16) {
            expect(cubic.at(x)).toBeGreaterThanOrEqual(before - 1e-12 * sum);
            before = cubic.at(x);
          }
        },
      ),
      { seed: 7 },
    );
  });

  test('is no number outside its points', () => {
    const cubic = new MonotoneCubic(0, 4, [0, 1, 2, 3, 4]);
    expect([cubic.at(0), cubic.at(4)]).toEqual([0, 4]);
    for (const x of [-1e-9, 4 + 1e-9, Number.NaN, Number.POSITIVE_INFINITY]) expect(cubic.at(x)).toBeNaN();
  });
});
