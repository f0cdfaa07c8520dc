import { describe, expect, test } from 'vitest';
import { riseSamples } from '../../../src/facts/rise/rise-samples.ts';
import { Random } from '../../../src/numerics/random.ts';
import { isolatedRise, samplesOf } from './isolated-rise.ts';

const MICRON_PA = 0.133322368;
const mean = (values: Iterable<number>) => {
  const all = [...values];
  return all.reduce((sum, value) => sum + value, 0) / all.length;
};

describe('means', () => {
  const line = (sinceS: number) => 40 + 0.1 * sinceS;

  test.each([0.2, 1, 5, 30])('of a straight rise lie on it, read every %d s', (intervalS) => {
    const { sinceS, vacuumPa } = samplesOf(isolatedRise(line, { intervalS }));
    for (const [index, at] of sinceS.entries()) expect(vacuumPa[index]).toBeCloseTo(line(at), 9);
  });

  test('begin after the lag of the gauge, and cover no more than an eighth of the time since valve-off', () => {
    const { sinceS } = samplesOf(isolatedRise(line, { intervalS: 0.2 }));
    expect(sinceS[0]).toBeGreaterThanOrEqual(4);
    expect(sinceS[0]).toBeLessThan(5);
    expect(sinceS.at(-1)).toBeLessThanOrEqual(900);
    // Half a span on each side of neighbours' middles.
    for (let i = 1; i < sinceS.length; i += 1) expect(sinceS[i] - sinceS[i - 1]).toBeLessThan(0.125 * sinceS[i] + 0.4);
    expect(sinceS.length).toBeGreaterThan(40);
    expect(sinceS.length).toBeLessThanOrEqual(121);
  });

  test('of a long dense log are no more than 121', () => {
    const { sinceS } = samplesOf(isolatedRise(line, { intervalS: 1, testS: 24 * 3600 }));
    expect(sinceS.length).toBeLessThanOrEqual(121);
  });

  test('do not reach across a gap', () => {
    const { elapsedS, vacuumPa } = isolatedRise(line);
    const kept = [...elapsedS.keys()].filter((index) => elapsedS[index] < 300 || elapsedS[index] > 500);
    const samples = samplesOf({
      gauge: null,
      elapsedS: Float64Array.from(kept, (index) => elapsedS[index]),
      vacuumPa: Float64Array.from(kept, (index) => vacuumPa[index]),
    });
    expect([...samples.sinceS].filter((at) => at > 300 && at < 500)).toEqual([]);
  });

  test('start with the level before valve-off, as sure as it is', () => {
    const { sinceS, vacuumPa, weights } = samplesOf(isolatedRise(line), { pa: 41, deviationPa: 0.5 });
    expect([sinceS[0], vacuumPa[0], weights[0]]).toEqual([0, 41, 4]);
    expect(sinceS[1]).toBeGreaterThanOrEqual(4);
  });

  test('need six readings after the lag', () => {
    const series = isolatedRise(line, { intervalS: 5, testS: 30 });
    expect(riseSamples(series, 0, 6, { startS: 0 })?.sinceS.length).toBe(6);
    expect(riseSamples(series, 0, 5, { startS: 0 })).toBeUndefined();
  });
});

describe('noise', () => {
  test.each([0.002, 0.005, 0.01, 0.02])('of %d is found while the pressure rises', (noiseRatio) => {
    const found = mean(
      Array.from({ length: 30 }, (_, seed) =>
        samplesOf(isolatedRise((s) => 40 + 0.2 * s, { noiseRatio, seed: seed + 1 })),
      ).map((samples) => samples.noiseRatio),
    );
    // Measured: within 3 %.
    expect(Math.abs(found / noiseRatio - 1)).toBeLessThan(0.05);
  });

  test('says how far the means scatter, be neighbours alike or not', () => {
    for (const correlation of [0, 0.3, 0.6]) {
      const scatter: number[] = [];
      const independent: number[] = [];
      for (let seed = 1; seed <= 60; seed += 1) {
        const random = new Random(seed);
        let last = random.normal(0, 0.01);
        const series = isolatedRise(() => {
          last = correlation * last + random.normal(0, 0.01 * Math.sqrt(1 - correlation ** 2));
          return 50 * (1 + last);
        });
        const samples = samplesOf(series);
        independent.push(samples.independent);
        for (const [index, pa] of samples.vacuumPa.entries()) scatter.push((pa - 50) ** 2 * samples.weights[index]);
      }
      // 1 if weights are one over the variance; measured 1.0 to 1.1.
      expect(mean(scatter)).toBeGreaterThan(0.85);
      expect(mean(scatter)).toBeLessThan(1.2);
      // Of a first-order process n(1 − ρ)/(1 + ρ) of n readings count (textbook); more here, since means count as independent.
      const wanted = (449 * (1 - correlation)) / (1 + correlation);
      expect(mean(independent) / wanted).toBeGreaterThan(0.9);
      expect(mean(independent) / wanted).toBeLessThan(1.5);
    }
  });

  test('a gauge in steps is no surer of itself than its steps allow', () => {
    const steady = (stepPa: number) => samplesOf(isolatedRise(() => 50, { noiseRatio: 0, stepPa }));
    const stepPa = 10 * MICRON_PA;
    const rising = samplesOf(isolatedRise((s) => 40 + 0.02 * s, { stepPa }));
    // A mean with no change in it may lie half a step off.
    for (const [index, weight] of rising.weights.entries()) {
      const off = Math.abs(rising.vacuumPa[index] - 40 - 0.02 * rising.sinceS[index]);
      expect(off * Math.sqrt(weight)).toBeLessThan(2.5);
    }
    expect(Math.max(...rising.weights)).toBeLessThan(Math.max(...steady(0).weights));
  });
});

describe('spikes', () => {
  test('single readings far off do not count', () => {
    const plain = isolatedRise((s) => 40 + 0.1 * s, { noiseRatio: 0.005 });
    const spoilt = {
      ...plain,
      vacuumPa: plain.vacuumPa.map((pa, i) => (i % 50 === 7 ? pa * (i % 100 === 7 ? 3 : 0.1) : pa)),
    };
    const [a, b] = [samplesOf(plain), samplesOf(spoilt)];
    expect(b.noiseRatio / a.noiseRatio).toBeLessThan(1.1);
    for (const [index, pa] of b.vacuumPa.entries()) expect(Math.abs(pa / a.vacuumPa[index] - 1)).toBeLessThan(0.007);
  });

  test('a step that stays does', () => {
    const samples = samplesOf(isolatedRise((s) => (s < 450 ? 40 : 44), { noiseRatio: 0.005 }));
    expect(samples.vacuumPa.at(-1)).toBeCloseTo(44, 0);
  });
});
