import { describe, expect, test } from 'vitest';
import { pressureTestFacts } from '../../../src/facts/pressure-test/pressure-test-facts.ts';
import { type StandingTestPlan, standingTestSight } from '../../../src/facts/pressure-test/standing-test-sight.ts';
import { Random } from '../../../src/numerics/random.ts';
import { airPa, kelvin, loggedTest, psig, psiPa } from './logged-test.ts';

const plan: StandingTestPlan = {
  pressurePa: psig(500),
  durationS: 4 * 3600,
  intervalS: 60,
  stepPa: psiPa,
  temperatureK: kelvin(70),
  temperatureUncertaintyK: 0.3,
};
const psi = (changed: Partial<StandingTestPlan>) => standingTestSight({ ...plan, ...changed }).smallestDropPa / psiPa;

test('where the temperature alone is uncertain, the drop is that of its deviation', () => {
  // 1.05 psi a °F for real nitrogen at 500 psig and 70 °F: 0.972 by P/T (published), 8 % more by the real gas.
  const deviationPsi = (2 / 1.96) * 0.972 * 1.08;
  const fine = { stepPa: 0.001 * psiPa, durationS: 24 * 3600, temperatureUncertaintyK: 2 / 1.8 };
  // 3.090 deviations leave 0.1 % below, 0.954 leave 83 % (tables of the normal distribution).
  expect(psi(fine) / (deviationPsi * (3.09 + 0.954))).toBeGreaterThan(0.98);
  expect(psi(fine) / (deviationPsi * (3.09 + 0.954))).toBeLessThan(1.04);
});

test('where the steps of the gauge alone are, it is about two and a half of them', () => {
  // The difference of two roundings deviates by step/√6, and counts for more where no other level shows.
  const drop = psi({ temperatureUncertaintyK: 0, durationS: 24 * 3600 });
  expect(drop).toBeGreaterThan(4.044 / Math.sqrt(6));
  expect(drop).toBeLessThan(2 * (4.044 / Math.sqrt(6)));
});

describe('a test sees less', () => {
  test.each<[string, Partial<StandingTestPlan>]>([
    ['with a coarser gauge', { stepPa: 5 * psiPa }],
    ['with a temperature less well known', { temperatureUncertaintyK: 1 }],
    ['where it is short, and the gas still settles', { durationS: 600 }],
  ])('%s', (_, changed) => {
    expect(psi(changed)).toBeGreaterThan(psi({}));
  });
});

test('what it says is what the facts say of such a test, a quiet one', () => {
  const random = new Random(8);
  const { elapsedS, testPa, lineK } = loggedTest({ stages: [{ psig: 500, holdS: plan.durationS }], intervalS: 60 });
  const shown = testPa.map((pa) => Math.round((pa - airPa + random.normal(0, 0.3 * psiPa)) / psiPa) * psiPa + airPa);
  const clamp = lineK?.map((k) => Math.round((k + random.normal(0, 0.05)) * 10) / 10);
  const { smallest_drop_seen_pa: smallestPa = Number.NaN } = pressureTestFacts({
    job: { barometer_pa: airPa },
    series: { elapsedS, testPa: shown, lineK: clamp },
  });
  // The facts tell from the readings how quiet it was, and noise makes up for steps; a plan has only the clamp's word.
  expect(smallestPa / psiPa).toBeGreaterThan(0.8 * psi({ temperatureUncertaintyK: 0 }));
  expect(smallestPa / psiPa).toBeLessThan(psi({ temperatureUncertaintyK: 0.5 }));
});

test('the settling after filling is left out', () => {
  expect(standingTestSight(plan).judgedS).toBe(4 * 3600 - 300);
  expect(standingTestSight({ ...plan, durationS: 900 }).judgedS).toBe(720);
});
