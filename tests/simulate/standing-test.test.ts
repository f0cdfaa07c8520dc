import { describe, expect, test } from 'vitest';
import { Random } from '../../src/numerics/random.ts';
import { nitrogenPressureAfter } from '../../src/physics/index.ts';
import {
  type LeakSort,
  runStandingTest,
  type StandingTest,
  type StandingTestRun,
  type TestClamp,
  type TestGauge,
} from '../../src/simulate/standing-test.ts';
import type { Weather } from '../../src/simulate/wall-temperature.ts';

const still: Weather = {
  airK: 293.15,
  driftKPerS: 0,
  swingK: 0,
  dayPhase: 0,
  sunK: 0,
  sunnyS: 600,
  cloudyS: 600,
  wallS: 60,
};
const tight: StandingTest = {
  volumeM3: 0.004,
  atmospherePa: 101_325,
  parts: [{ share: 1, weather: still }],
  stages: [{ toPa: 3.2e6, fillS: 60, holdS: 3600 }],
  leakMolPerS: 0,
  leakSort: 'laminar',
  fillingK: 0,
  settlingS: 60,
  releaseS: 60,
  idleS: 30,
};
/** Shows what is. */
const gauge: TestGauge = { stepPa: 0, noisePa: 0, gainRatio: 0, perKRatio: 0, zeroPa: 0, intervalS: 5 };
const clamp: TestClamp = { part: 0, offsetK: 0, gainRatio: 1, stepK: 1e-6, noiseK: 0 };

const run = (more: Partial<StandingTest> = {}, by: Partial<TestGauge> = {}, seed = 1) =>
  runStandingTest(new Random(seed), { ...tight, ...more }, { ...gauge, ...by }, clamp);
const inWeather = (weather: Partial<Weather>) => [{ share: 1, weather: { ...still, ...weather } }];

/** Places of the readings in the last hold. */
function held({ elapsedS, holds }: StandingTestRun): { from: number; to: number } {
  const { startS, endS } = holds[holds.length - 1];
  return { from: elapsedS.findIndex((atS) => atS >= startS), to: elapsedS.findLastIndex((atS) => atS <= endS) };
}

describe('runStandingTest', () => {
  test('tight and in no weather the pressure stays, and nothing is lost', () => {
    const { testPa, moles, lineC, ...times } = run();
    const { from, to } = held({ testPa, moles, lineC, ...times });
    for (let at = from; at <= to; at++) {
      expect(testPa[at] / 3.2e6).toBeCloseTo(1, 8);
      expect(moles[at]).toBe(moles[from]);
      expect(lineC[at]).toBeCloseTo(20, 6);
    }
    expect(testPa[0]).toBeCloseTo(101_325, 3);
    expect((testPa.at(-1) ?? 0) / 101_325).toBeCloseTo(1, 6);
  });

  test.each([10, -10, 15])('%d K more everywhere: the pressure that nitrogen has then, within 0.03 %%', (changeK) => {
    const { testPa, lineC, moles, ...times } = run({ parts: inWeather({ driftKPerS: changeK / 3600 }) });
    const { from, to } = held({ testPa, lineC, moles, ...times });
    expect(Math.abs(lineC[to] - lineC[from] - changeK)).toBeLessThan(0.4);
    const expectedPa = nitrogenPressureAfter({
      startPa: testPa[from],
      startK: lineC[from] + 273.15,
      endK: lineC[to] + 273.15,
    });
    expect(Math.abs(testPa[to] / expectedPa - 1)).toBeLessThan(0.0003);
    expect(moles[to]).toBe(moles[from]);
  });

  test('where a part stays as it is, the pressure changes by about the share of the other', () => {
    const changed = (share: number) => {
      const drifting = { ...still, driftKPerS: 10 / 3600 };
      const parts = [
        { share, weather: drifting },
        { share: 1 - share, weather: still },
      ];
      const one = run({ parts: share < 1 ? parts : [{ share, weather: drifting }] });
      const { from, to } = held(one);
      return one.testPa[to] - one.testPa[from];
    };
    expect(changed(0.6) / changed(1)).toBeCloseTo(0.6, 1);
  });

  test('the sun moves pressure and pipe, but loses nothing', () => {
    const one = run({ parts: inWeather({ sunK: 12, sunnyS: 900, cloudyS: 900 }) });
    const { from, to } = held(one);
    const warmed = one.lineC.subarray(from, to + 1);
    expect(Math.max(...warmed) - Math.min(...warmed)).toBeGreaterThan(6);
    expect(new Set(one.moles.subarray(from, to + 1)).size).toBe(1);
    for (let at = from; at <= to; at += 20) {
      const startK = one.lineC[from] + 273.15;
      const expectedPa = nitrogenPressureAfter({ startPa: one.testPa[from], startK, endK: one.lineC[at] + 273.15 });
      expect(Math.abs(one.testPa[at] / expectedPa - 1)).toBeLessThan(0.0003);
    }
  });

  // What is lost at a lower pressure, by hand: as p − 101325, as p, and as p² − 101325².
  test.each<[LeakSort, (pa: number) => number]>([
    ['molecular', (pa) => pa - 101_325],
    ['hole', (pa) => pa],
    ['laminar', (pa) => pa ** 2 - 101_325 ** 2],
  ])('a %s leak is the loss in mol/s, and falls with the pressure', (leakSort, drive) => {
    const leakMolPerS = 4e-4;
    const { testPa, moles, elapsedS, ...rest } = run({ leakMolPerS, leakSort });
    const { from, to } = held({ testPa, moles, elapsedS, ...rest });
    const lostAt = (at: number) => (moles[at] - moles[at + 1]) / (elapsedS[at + 1] - elapsedS[at]);
    expect(Math.abs(lostAt(from) / leakMolPerS - 1)).toBeLessThan(0.005);
    expect(testPa[to]).toBeLessThan(0.8 * testPa[from]);
    const expected = leakMolPerS * (drive(testPa[to - 1]) / drive(3.2e6));
    expect(Math.abs(lostAt(to - 1) / expected - 1)).toBeLessThan(0.005);
    // The pressure falls with what is left, as at one temperature it must: Z changes by less than 2 %.
    expect(Math.abs(testPa[to] / testPa[from] / (moles[to] / moles[from]) - 1)).toBeLessThan(0.02);
  });

  test('stages are filled to and held one after the other, and the last one let off', () => {
    const stages = [
      { toPa: 170_000, fillS: 10, holdS: 300 },
      { toPa: 1.1e6, fillS: 30, holdS: 240 },
      { toPa: 3.2e6, fillS: 60, holdS: 900 },
    ];
    const { holds, testPa, elapsedS } = run({ stages });
    expect(holds).toHaveLength(3);
    for (const [index, { startS, endS }] of holds.entries()) {
      const expectedS = [40, 370, 670][index];
      expect(Math.abs(startS - expectedS)).toBeLessThan(1e-6);
      expect(Math.abs(endS - startS - stages[index].holdS)).toBeLessThan(1e-6);
      const within = testPa.filter((_, at) => elapsedS[at] >= startS && elapsedS[at] <= endS);
      expect(Math.max(...within) / stages[index].toPa).toBeCloseTo(1, 6);
      expect(Math.min(...within) / stages[index].toPa).toBeCloseTo(1, 6);
    }
    expect((testPa.at(-1) ?? 0) / 101_325).toBeCloseTo(1, 6);
    const open = run({ stages, releaseS: undefined });
    expect((open.testPa.at(-1) ?? 0) / 3.2e6).toBeCloseTo(1, 6);
  });

  test('gas that is warm from the filling settles to the pressure at the wall', () => {
    const { testPa, moles, lineC, ...times } = run({ fillingK: 8 });
    const { from, to } = held({ testPa, moles, lineC, ...times });
    const warmK = (8 * Math.log(3.2e6 / 101_325)) / Math.log(50);
    const settledPa = nitrogenPressureAfter({ startPa: 3.2e6, startK: 293.15 + warmK, endK: 293.15 });
    expect(Math.abs(testPa[to] / settledPa - 1)).toBeLessThan(0.0003);
    expect(testPa[from]).toBeGreaterThan(testPa[from + 10]);
    expect(moles[to]).toBe(moles[from]);
    expect(lineC[to]).toBeCloseTo(20, 6);
  });

  test('a gauge shows its gain, its zero and its steps', () => {
    const stepPa = 6894.757;
    const { testPa, ...rest } = run({}, { gainRatio: 0.01, zeroPa: 2000, stepPa });
    const { to } = held({ testPa, ...rest });
    const readPa = (3.2e6 - 101_325) * 1.01 + 2000;
    expect(testPa[to] - 101_325).toBeCloseTo(Math.round(readPa / stepPa) * stepPa, 3);
    const warmer = run({ parts: inWeather({ driftKPerS: 10 / 3600 }) }, { perKRatio: 0.001 });
    const plain = run({ parts: inWeather({ driftKPerS: 10 / 3600 }) });
    const last = held(plain).to;
    // 10 K warmer, 0.1 % of the gauge pressure each.
    const moreRatio = (warmer.testPa[last] - plain.testPa[last]) / (plain.testPa[last] - 101_325);
    expect(moreRatio).toBeCloseTo(0.01, 3);
  });

  test('the same seed gives the same readings, another one others', () => {
    const drawn = (seed: number) => [...run({ parts: inWeather({ sunK: 8 }) }, { noisePa: 500 }, seed).testPa];
    expect(drawn(3)).toEqual(drawn(3));
    expect(drawn(3)).not.toEqual(drawn(4));
  });
});
