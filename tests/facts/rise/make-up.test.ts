import fc from 'fast-check';
import { expect, test } from 'vitest';
import { partsAt, riseAt } from '../../../src/facts/rise/make-up.ts';
import { fitted, isolatedRise, outgassing, saturating, shapeOf } from './isolated-rise.ts';

const anyRise = fc.record({
  basePa: fc.double({ min: 1, max: 300, noNaN: true }),
  leak: fc.double({ min: 0, max: 2, noNaN: true }),
  vapourPa: fc.double({ min: 0, max: 300, noNaN: true }),
  vapourS: fc.double({ min: 10, max: 3000, noNaN: true }),
  tailPa: fc.double({ min: 0, max: 50, noNaN: true }),
  settlingPa: fc.double({ min: 0, max: 60, noNaN: true }),
  settlingS: fc.double({ min: 2, max: 35, noNaN: true }),
  noiseRatio: fc.double({ min: 0, max: 0.03, noNaN: true }),
  stepPa: fc.constantFrom(0, 0.133322368, 1.33322368),
  testS: fc.integer({ min: 120, max: 3600 }),
  intervalS: fc.constantFrom(1, 2, 5),
  seed: fc.integer({ min: 1, max: 1_000_000 }),
});

test('no part of a rise is negative, and they add up to its curve', () => {
  fc.assert(
    fc.property(anyRise, ({ basePa, leak, vapourPa, vapourS, tailPa, settlingPa, settlingS, ...options }) => {
      const [vapour, tail, settling] = [
        saturating(vapourPa, vapourS),
        outgassing(tailPa, 1200),
        saturating(settlingPa, settlingS),
      ];
      const rise = isolatedRise((s) => basePa + leak * s + vapour(s) + tail(s) + settling(s), options);
      const { fit, makeUp, leakPaPerS } = fitted(rise, undefined, options.stepPa);
      expect(leakPaPerS).toBeGreaterThanOrEqual(0);
      for (const { size, timeS } of makeUp.parts) {
        expect(size).toBeGreaterThan(0);
        expect(timeS).toBeGreaterThan(0);
      }
      expect(fit.leak.low).toBeLessThanOrEqual(leakPaPerS);
      expect(fit.leak.high).toBeGreaterThanOrEqual(leakPaPerS);
      expect(fit.likelyLeak.low).toBeGreaterThanOrEqual(fit.leak.low);
      expect(fit.likelyLeak.high).toBeLessThanOrEqual(fit.leak.high);
      const { testS } = fit;
      const sumPa =
        leakPaPerS * testS +
        partsAt(makeUp, ['saturating', 'slow', 'tail'], testS) +
        partsAt(makeUp, ['settling'], testS);
      expect(riseAt(makeUp, testS)).toBeCloseTo(sumPa, 9);
    }),
    { numRuns: 300, seed: 4 },
  );
});

// The fit knows equalisations of 4, 9 and 18 s only.
test.each([2, 3, 6, 7, 12, 14, 25, 35])('an equalisation in %d s is no leak', (settlingS) => {
  for (const pa of [5, 30, 100])
    for (const testS of [300, 900])
      for (let seed = 1; seed <= 10; seed += 1) {
        const at = (s: number) => 40 + saturating(pa, settlingS)(s);
        const rise = fitted(isolatedRise(at, { testS, noiseRatio: 0.005, seed }));
        expect([pa, testS, seed, shapeOf(rise, 40)]).not.toEqual([
          pa,
          testS,
          seed,
          expect.stringMatching(/leak|mixed/),
        ]);
      }
});
