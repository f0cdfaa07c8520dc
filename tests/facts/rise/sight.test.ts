import { describe, expect, test } from 'vitest';
import { fitted, isolatedRise, outgassing, type RiseOptions, saturating, shapeOf, shareOf } from './isolated-rise.ts';

const MICRON_PA = 0.133322368;
const steady = () => 40;

/** Means of what such a test could have shown, over twelve seeds [Pa/s]. */
function sightOf(options: RiseOptions, at: (sinceS: number) => number = steady): { leak: number; rise: number } {
  const seeds = Array.from({ length: 12 }, (_, index) => index + 1);
  const all = seeds.map(
    (seed) => fitted(isolatedRise(at, { noiseRatio: 0.005, ...options, seed }), undefined, options.stepPa).fit.sight,
  );
  const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  return { leak: mean(all.map(({ leakPaPerS }) => leakPaPerS)), rise: mean(all.map(({ risePaPerS }) => risePaPerS)) };
}

/** Each is no larger than the one before. */
function expectFalling(sights: { leak: number; rise: number }[]): void {
  for (let i = 1; i < sights.length; i += 1) {
    expect(sights[i].leak).toBeLessThanOrEqual(sights[i - 1].leak);
    expect(sights[i].rise).toBeLessThanOrEqual(sights[i - 1].rise);
  }
}

describe('physical order', () => {
  test('a longer test sees no less', () => {
    for (const noiseRatio of [0.002, 0.01])
      expectFalling([180, 300, 600, 900, 1800, 3600].map((testS) => sightOf({ testS, noiseRatio })));
  });

  test('a quieter gauge sees no less', () => {
    for (const testS of [300, 900])
      expectFalling([0.03, 0.015, 0.01, 0.005, 0.002].map((noiseRatio) => sightOf({ testS, noiseRatio })));
  });
  test('finer steps see no less', () => {
    expectFalling([10, 5, 1].map((microns) => sightOf({ noiseRatio: 0.002, stepPa: microns * MICRON_PA })));
  });

  test('reading more often sees no less', () => {
    expectFalling([10, 5, 2, 1].map((intervalS) => sightOf({ intervalS, noiseRatio: 0.01 })));
  });

  test('a lower pressure, by a gauge whose noise goes with it, sees no less', () => {
    expectFalling([200, 100, 40, 20].map((pa) => sightOf({}, () => pa)));
  });

  test('what slackens beside it hides a leak, moisture more than outgassing', () => {
    const [dry, gassy, wet] = [
      steady,
      (s: number) => 40 + outgassing(20, 1200)(s),
      (s: number) => 40 + saturating(30, 200)(s),
    ];
    expect(sightOf({}, gassy).leak).toBeGreaterThan(sightOf({}, dry).leak);
    expect(sightOf({}, wet).leak).toBeGreaterThan(sightOf({}, gassy).leak);
  });

  test('a rise is seen before it is known for a leak', () => {
    for (const at of [steady, (s: number) => 40 + saturating(30, 200)(s), (s: number) => 40 + outgassing(20, 1200)(s)])
      for (const testS of [300, 900]) {
        const { leak, rise } = sightOf({ testS }, at);
        expect(rise).toBeLessThanOrEqual(leak);
      }
  });
});

describe('the leak that it says it would have told', () => {
  const found = (at: (s: number) => number, times: number, options: RiseOptions) =>
    shareOf(60, (seed) => {
      const size = fitted(isolatedRise(at, { ...options, seed })).fit.sight.leakPaPerS;
      const again = isolatedRise((s) => at(s) + times * size * s, { ...options, seed: 1000 + seed });
      return fitted(again).fit.leak.low > 0;
    });

  test.each([
    [300, 0.005],
    [600, 0.01],
    [900, 0.005],
    [1800, 0.01],
  ])('is told about four times of five: %d s, noise %d', (testS, noiseRatio) => {
    const share = found(steady, 1, { testS, noiseRatio });
    // Of what is modelled a little more than 0.8 (measured: 0.87 to 0.95): part of it stands for what is not.
    expect(share).toBeGreaterThanOrEqual(0.8);
    expect(share).toBeLessThanOrEqual(0.97);
  });

  test('a third of it hardly ever, three times it always', () => {
    const options = { noiseRatio: 0.005 };
    expect(found(steady, 1 / 3, options)).toBeLessThanOrEqual(0.1);
    expect(found(steady, 3, options)).toBe(1);
  });

  test('none where there is none', () => {
    expect(found(steady, 0, { noiseRatio: 0.005 })).toBeLessThanOrEqual(0.02);
  });
});

test('a leak of half the sight of a test is called one less often than not', () => {
  const size = sightOf({ testS: 300 }).leak / 2;
  const claimed = shareOf(60, (seed) => {
    const rise = fitted(isolatedRise((s) => 40 + size * s, { testS: 300, noiseRatio: 0.005, seed }));
    return shapeOf(rise, 40) === 'leak' && rise.fit.leak.low > 0;
  });
  // Measured: 0.4.
  expect(claimed).toBeLessThan(0.5);
});
