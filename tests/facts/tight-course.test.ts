import { describe, expect, test } from 'vitest';
import { pressureTestFacts } from '../../src/facts/pressure-test/pressure-test-facts.ts';
import { tightCourse } from '../../src/facts/pressure-test/tight-course.ts';
import { Random } from '../../src/numerics/random.ts';
import { runStandingTest, type StandingTest } from '../../src/simulate/standing-test.ts';
import type { Weather } from '../../src/simulate/wall-temperature.ts';

// The truth is the simulation's: another equation of state (nitrogen-virial), walls of its own.
const psiPa = 6894.757;
const still: Weather = {
  airK: 294,
  driftKPerS: 0,
  swingK: 0,
  dayPhase: 0,
  sunK: 0,
  sunnyS: 900,
  cloudyS: 900,
  wallS: 150,
};
const sunny = { ...still, sunK: 10 };
const base: StandingTest = {
  volumeM3: 0.004,
  atmospherePa: 101_325,
  parts: [{ share: 1, weather: sunny }],
  stages: [{ toPa: 450 * psiPa + 101_325, fillS: 60, holdS: 5400 }],
  leakMolPerS: 0,
  leakSort: 'laminar',
  fillingK: 4,
  settlingS: 60,
  releaseS: 60,
  idleS: 30,
};
const gauge = { stepPa: 0.1 * psiPa, noisePa: 0.05 * psiPa, gainRatio: 0, perKRatio: 0, zeroPa: 0, intervalS: 5 };
const clamp = { part: 0, offsetK: 0.2, gainRatio: 1, stepK: 0.1, noiseK: 0.05 };
// Moles of an ideal gas are near enough to say that a leak takes some psi of it.
const molPerPsi = (psiPa * base.volumeM3) / (8.314 * 294);

/** @param isRead when the clamp was read: throughout, or not */
function courseOf(more: Partial<StandingTest>, isRead: (atS: number) => boolean = () => true) {
  const run = runStandingTest(new Random(7), { ...base, ...more }, gauge, clamp);
  const series = {
    elapsedS: run.elapsedS,
    testPa: run.testPa,
    lineK: run.lineC.map((celsius, at) => (isRead(run.elapsedS[at]) ? celsius + 273.15 : Number.NaN)),
  };
  const facts = pressureTestFacts({ job: { clamp_accuracy_k: 0.5 }, series });
  const course = tightCourse(series, facts);
  if (course === undefined) throw new Error('there is no course');
  const { judged, pressureAt } = course;
  const besidePsi = Array.from(judged.testPa, (pa, at) => (pa - pressureAt(judged.lineK[at])) / psiPa);
  return { ...course, facts, besidePsi };
}

describe('what a tight system would have shown', () => {
  test('is what a tight one showed, while the sun moved it by ten psi', () => {
    const { besidePsi, followingRatio, facts } = courseOf({});
    expect((facts.warmest_line_k ?? 0) - (facts.coldest_line_k ?? 0)).toBeGreaterThan(8);
    expect(Math.abs(followingRatio - 1)).toBeLessThan(0.03);
    expect(Math.max(...besidePsi.map(Math.abs))).toBeLessThan(0.8);
  });

  test('goes along with the pipe by the share of the gas that is in it', () => {
    const { besidePsi, followingRatio } = courseOf({
      parts: [
        { share: 0.7, weather: sunny },
        { share: 0.3, weather: still },
      ],
    });
    expect(Math.abs(followingRatio - 0.7)).toBeLessThan(0.03);
    expect(Math.max(...besidePsi.map(Math.abs))).toBeLessThan(0.8);
  });

  test('leaves the drop of a leaking one below it', () => {
    const { besidePsi, facts } = courseOf({ leakMolPerS: (4 * molPerPsi) / 5400 });
    const ends = (from: number, to?: number) => besidePsi.slice(from, to).reduce((sum, psi) => sum + psi / 20, 0);
    expect(Math.abs(ends(0, 20))).toBeLessThan(0.4);
    expect(Math.abs(ends(-20) + (facts.pressure_drop_pa ?? 0) / psiPa)).toBeLessThan(0.4);
    expect(ends(-20)).toBeLessThan(-3);
  });

  test('takes all of the gas to follow where the pipe hardly changed', () => {
    const { followingRatio } = courseOf({ parts: [{ share: 1, weather: still }] });
    expect(Math.abs(followingRatio - 1)).toBeLessThan(0.2);
  });

  test('is known on both sides of a hole in what the clamp read', () => {
    const isRead = (atS: number) => atS < 2000 || atS > 2600;
    const { judged, besidePsi, followingRatio } = courseOf({}, isRead);
    expect(judged.elapsedS.every(isRead)).toBe(true);
    expect(judged.lineK.every(Number.isFinite)).toBe(true);
    expect((judged.elapsedS.at(-1) ?? 0) - judged.elapsedS[0]).toBeGreaterThan(5000);
    expect(Math.abs(followingRatio - 1)).toBeLessThan(0.03);
    expect(Math.max(...besidePsi.map(Math.abs))).toBeLessThan(0.8);
  });

  test('is not there without a corrected drop', () => {
    const series = { elapsedS: Float64Array.of(0, 1, 2), testPa: Float64Array.of(1e6, 1e6, 1e6) };
    expect(tightCourse(series, {})).toBeUndefined();
    const facts = { pressure_drop_pa: 1, pressure_settled_s: 0, pressure_hold_end_s: 2 };
    expect(tightCourse(series, facts)).toBeUndefined();
    expect(tightCourse(series, { ...facts, pressure_settled_s: 5 })).toBeUndefined();
  });
});
