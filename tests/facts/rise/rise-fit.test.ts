import { describe, expect, test } from 'vitest';
import { partOf, partsAt } from '../../../src/facts/rise/make-up.ts';
import { riseFit } from '../../../src/facts/rise/rise-fit.ts';
import type { VacuumSeries } from '../../../src/traces/vacuum-series.ts';
import {
  fitted,
  isolatedRise,
  outgassing,
  saturating,
  samplesOf,
  shapeOf,
  shareOf,
  usualOutlook,
  type RiseOptions,
} from './isolated-rise.ts';

const MICRON_PA = 0.133322368;

describe('a curve without noise is recovered', () => {
  test.each([0.003, 0.05, 0.5, 5])('leak of %d Pa/s', (leak) => {
    const { leakPaPerS, fit, makeUp } = fitted(isolatedRise((s) => 40 + leak * s));
    // Measured: 1e-13.
    expect(Math.abs(leakPaPerS / leak - 1)).toBeLessThan(1e-9);
    expect(makeUp.parts).toEqual([]);
    expect(fit.leak.low).toBeLessThanOrEqual(leak * (1 + 1e-9));
    expect(fit.leak.high).toBeGreaterThanOrEqual(leak * (1 - 1e-9));
  });

  test('nothing at all', () => {
    const { fit, leakPaPerS, makeUp } = fitted(isolatedRise(() => 40));
    expect([leakPaPerS, makeUp.parts, fit.leak.low]).toEqual([0, [], 0]);
    expect(fit.leak.high * fit.testS).toBeLessThan(0.01);
  });

  // Leak [Pa/s], size [Pa] and time constant [s] of the moisture, length [s].
  test.each([
    [0.05, 30, 150, 900],
    [0.2, 30, 60, 900],
    [0.1, 60, 120, 1800],
    [0.05, 100, 300, 1800],
    [0.02, 20, 90, 600],
    [1, 50, 100, 600],
    [0, 30, 200, 900],
    [0, 300, 600, 900],
    [0, 100, 1500, 900],
  ])('leak of %d Pa/s with moisture of %d Pa in %d s, seen for %d s', (leak, pa, timeS, testS) => {
    const moisture = saturating(pa, timeS);
    const { leakPaPerS, fit, makeUp } = fitted(isolatedRise((s) => 40 + leak * s + moisture(s), { testS }));
    const found = partOf(makeUp, 'saturating');
    // The time constant is one of a grid that is refined only where it matters; measured: τ 1 %, A 0.15 %, k 0.4 %.
    expect(Math.abs((found?.timeS ?? 0) / timeS - 1)).toBeLessThan(0.015);
    expect(Math.abs((found?.size ?? 0) / pa - 1)).toBeLessThan(0.003);
    expect(Math.abs(leakPaPerS - leak)).toBeLessThan(0.006 * leak + 1e-6);
    expect(makeUp.parts.length).toBe(1);
    expect(fit.leak.low).toBeLessThanOrEqual(leak);
    expect(fit.leak.high).toBeGreaterThanOrEqual(0.998 * leak);
    expect(Math.abs(partsAt(makeUp, ['saturating'], fit.testS) / moisture(fit.testS) - 1)).toBeLessThan(0.002);
  });

  test.each([4, 18])('an equalisation in %d s, beside a leak and alone', (timeS) => {
    for (const leak of [0, 0.05]) {
      const { leakPaPerS, makeUp } = fitted(isolatedRise((s) => 40 + leak * s + saturating(8, timeS)(s)));
      expect(makeUp.parts.map(({ part }) => part)).toEqual(['settling']);
      expect(partOf(makeUp, 'settling')?.size).toBeCloseTo(8, 2);
      expect(leakPaPerS).toBeCloseTo(leak, 5);
    }
  });

  test('outgassing, beside a leak and alone', () => {
    for (const leak of [0, 0.05]) {
      const { leakPaPerS, makeUp } = fitted(isolatedRise((s) => 40 + leak * s + outgassing(20, 1200)(s)));
      expect(makeUp.parts.map(({ part }) => part)).toEqual(['tail']);
      expect(partOf(makeUp, 'tail')?.size).toBeCloseTo(20, 2);
      expect(leakPaPerS).toBeCloseTo(leak, 5);
    }
  });
});

describe('outgassing is not a leak', () => {
  /** Shapes and whether a leak is claimed, of 1/t curves of several sizes, noises and seeds. */
  const curves = (pumpedS: number, testS: number) =>
    [5, 20, 60, 200].flatMap((pa) =>
      [0.005, 0.015].flatMap((noiseRatio) =>
        Array.from({ length: 25 }, (_, seed) => {
          const at = (s: number) => 30 + outgassing(pa, pumpedS)(s);
          const rise = fitted(isolatedRise(at, { testS, noiseRatio, seed: seed + 1 }));
          return { shape: shapeOf(rise, 30), claimed: rise.fit.leak.low > 0 };
        }),
      ),
    );
  const count = <T>(all: readonly T[], is: (one: T) => boolean) => all.filter(is).length;

  test('a 1/t curve without noise is never called a leak', () => {
    for (const testS of [300, 600, 900, 1800, 3600])
      for (const pa of [5, 20, 60, 200]) {
        const rise = fitted(isolatedRise((s) => 30 + outgassing(pa, usualOutlook.pumpedS)(s), { testS }));
        expect(shapeOf(rise, 30)).not.toMatch(/leak|mixed/);
        expect(rise.fit.leak.low).toBe(0);
      }
  });

  test.each([300, 600, 1800])('one with noise, seen for %d s, hardly ever', (testS) => {
    const found = curves(usualOutlook.pumpedS, testS);
    // Of 200; of 16 800 with other sizes and lengths 15 were called a leak, 9 mixed, and 1 % had a leak above 0 at 95 %.
    expect(count(found, ({ shape }) => shape === 'leak' || shape === 'mixed')).toBeLessThanOrEqual(2);
    expect(count(found, ({ claimed }) => claimed)).toBeLessThanOrEqual(8);
  });

  test('nor where the pump was on for a shorter time than the log shows', () => {
    const found = curves(600, 900);
    expect(count(found, ({ shape }) => shape === 'leak' || shape === 'mixed')).toBe(0);
    expect(count(found, ({ claimed }) => claimed)).toBe(0);
  });
  test('where it was on for twice as long as believed, a leak is claimed in one of ten, and called in few', () => {
    // Measured of 200: 20 and 2. Of a log that begins in the hold the clock is taken three times as long.
    const found = curves(2400, 900);
    expect(count(found, ({ shape }) => shape === 'leak' || shape === 'mixed')).toBeLessThanOrEqual(4);
    expect(count(found, ({ claimed }) => claimed)).toBeLessThanOrEqual(25);
  });

  test.each([0.02, 0.05, 0.2])(
    'a leak of %d Pa/s with such a tail, pumped for 20 min: the interval holds it',
    (leak) => {
      const at = (s: number) => 30 + leak * s + outgassing(20, 1200)(s);
      const held = shareOf(60, (seed) => {
        const { low, high } = fitted(isolatedRise(at, { noiseRatio: 0.005, seed })).fit.leak;
        return low <= leak && leak <= high;
      });
      expect(held).toBeGreaterThanOrEqual(0.95);
    },
  );
});

describe('the interval by the fit alone holds the leak', () => {
  const held = (at: (s: number) => number, leak: number, options: RiseOptions) =>
    shareOf(100, (seed) => {
      const { low, high } = fitted(isolatedRise(at, { ...options, seed }), undefined, options.stepPa).fit.leak;
      return low <= leak && leak <= high;
    });

  // Of 100 seeds 95 should; 90 and fewer come by chance once in 35.
  test.each([0.005, 0.01])('leaks with noise of %d', (noiseRatio) => {
    for (const leak of [0.003, 0.05, 0.5])
      expect(held((s) => 40 + leak * s, leak, { noiseRatio })).toBeGreaterThanOrEqual(0.91);
  });

  test.each([1, 5, 10])('leaks read in steps of %d µm', (microns) => {
    for (const leak of [0.02, 0.05, 0.5])
      for (const noiseRatio of [0, 0.005])
        expect(held((s) => 40.3 + leak * s, leak, { noiseRatio, stepPa: microns * MICRON_PA })).toBeGreaterThanOrEqual(
          0.91,
        );
  });
  test('a leak that stays below one step of the gauge', () => {
    expect(held((s) => 40 + 5e-4 * s, 5e-4, { stepPa: 10 * MICRON_PA })).toBeGreaterThanOrEqual(0.91);
  });

  test('moisture without a leak', () => {
    expect(held((s) => 40 + saturating(30, 200)(s), 0, { noiseRatio: 0.01 })).toBe(1);
    expect(held((s) => 40 + saturating(300, 600)(s), 0, { noiseRatio: 0.01 })).toBe(1);
  });

  test.each([0.002, 0.01])('moisture as slow as one and a half tests, noise %d', (noiseRatio) => {
    expect(held((s) => 40 + saturating(200, 1350)(s), 0, { noiseRatio })).toBeGreaterThanOrEqual(0.91);
  });
  test('moisture as slow as four tests', () => {
    expect(held((s) => 30 + saturating(200, 3600)(s), 0, { noiseRatio: 0.005 })).toBeGreaterThanOrEqual(0.91);
  });

  test('a leak beside an equalisation', () => {
    expect(held((s) => 40 + 0.05 * s + saturating(8, 18)(s), 0.05, { noiseRatio: 0.01 })).toBeGreaterThanOrEqual(0.91);
  });
  test('a leak beside moisture', () => {
    const share = held((s) => 40 + 0.05 * s + saturating(30, 400)(s), 0.05, { noiseRatio: 0.005 });
    expect(share).toBeGreaterThanOrEqual(0.91);
  });
  test('and the estimate', () => {
    const at = (s: number) => 40 + 0.2 * s + saturating(30, 60)(s);
    for (let seed = 1; seed <= 100; seed += 1) {
      const { leakPaPerS, fit } = fitted(isolatedRise(at, { noiseRatio: 0.01, seed }));
      expect(leakPaPerS).toBeGreaterThanOrEqual(fit.leak.low);
      expect(leakPaPerS).toBeLessThanOrEqual(fit.leak.high);
    }
  });
});

describe('how it was read does not matter', () => {
  const leak = 0.1;
  const at = (s: number) => 40 + leak * s;

  test.each([0.2, 0.5, 1, 2, 5, 10, 30])('every %d s', (intervalS) => {
    for (let seed = 1; seed <= 5; seed += 1) {
      const { leakPaPerS } = fitted(isolatedRise(at, { intervalS, noiseRatio: 0.01, seed }));
      // Measured: 1.2 % at 30 s, 0.8 % at 10 s, 0.5 % below.
      expect(Math.abs(leakPaPerS / leak - 1)).toBeLessThan(intervalS > 5 ? 0.015 : 0.006);
    }
  });

  const spoilt: [string, (series: VacuumSeries) => VacuumSeries][] = [
    ['spikes', (series) => ({ ...series, vacuumPa: series.vacuumPa.map((pa, i) => (i % 40 === 9 ? 4 * pa : pa)) })],
    ['a gap of 3 min', (series) => without(series, (s) => s > 300 && s < 480)],
    [
      'a last reading far off',
      (series) => ({
        ...series,
        vacuumPa: series.vacuumPa.map((pa, i) => (i === series.vacuumPa.length - 1 ? 6 * pa : pa)),
      }),
    ],
    ['three gaps and a late start', (series) => without(series, (s) => s < 30 || s % 300 > 240)],
  ];
  test.each(spoilt)('%s', (_, spoil) => {
    for (let seed = 1; seed <= 5; seed += 1) {
      const plain = isolatedRise(at, { noiseRatio: 0.005, seed });
      const { leakPaPerS, fit } = fitted(spoil(plain));
      expect(Math.abs(leakPaPerS / fitted(plain).leakPaPerS - 1)).toBeLessThan(0.005);
      expect(fit.leak.low).toBeLessThanOrEqual(leak);
      expect(fit.leak.high).toBeGreaterThanOrEqual(leak * 0.999);
    }
  });

  const mixed = isolatedRise((s) => 40 + leak * s + saturating(30, 150)(s), { noiseRatio: 0.005 });

  test.each([0.01, 7.5006, 1e4])('pressures × %d give leaks × that', (c) => {
    const plain = fitted(mixed);
    const other = riseFit(samplesOf({ ...mixed, vacuumPa: mixed.vacuumPa.map((pa) => c * pa) }), {
      pumpedS: usualOutlook.pumpedS,
      mostVapourPa: c * usualOutlook.mostVapourPa,
    });
    for (const [a, b] of [
      [plain.leakPaPerS, other?.makeUp.leakPaPerS],
      [plain.fit.leak.low, other?.leak.low],
      [plain.fit.leak.high, other?.leak.high],
      [plain.fit.sight.leakPaPerS, other?.sight.leakPaPerS],
      [
        partsAt(plain.makeUp, ['saturating'], plain.fit.testS),
        other && partsAt(other.makeUp, ['saturating'], other.testS),
      ],
    ])
      expect((b as number) / (a as number)).toBeCloseTo(c, 9 - Math.ceil(Math.log10(c)));
  });

  test('a clock that began earlier gives the same', () => {
    const plain = fitted(mixed);
    const later = fitted({ ...mixed, elapsedS: mixed.elapsedS.map((s) => s + 86_400) });
    expect(later.leakPaPerS).toBeCloseTo(plain.leakPaPerS, 9);
    expect(later.fit.leak.low).toBeCloseTo(plain.fit.leak.low, 9);
    expect(later.fit.leak.high).toBeCloseTo(plain.fit.leak.high, 9);
    expect(later.fit.sight.leakPaPerS).toBeCloseTo(plain.fit.sight.leakPaPerS, 9);
  });
});

function without({ elapsedS, vacuumPa }: VacuumSeries, lost: (sinceS: number) => boolean): VacuumSeries {
  const kept = [...elapsedS.keys()].filter((index) => index === 0 || !lost(elapsedS[index]));
  return {
    gauge: null,
    elapsedS: Float64Array.from(kept, (index) => elapsedS[index]),
    vacuumPa: Float64Array.from(kept, (index) => vacuumPa[index]),
  };
}
