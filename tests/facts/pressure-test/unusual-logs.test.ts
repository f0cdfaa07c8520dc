import { describe, expect, test } from 'vitest';
import { jobFacts } from '../../../src/facts/job-facts.ts';
import { pressureTestFacts } from '../../../src/facts/pressure-test/pressure-test-facts.ts';
import { tightCourse } from '../../../src/facts/pressure-test/tight-course.ts';
import { pressureNotHeld } from '../../../src/checks/pressure-test/pressure-not-held.ts';
import { asRecorded, resolveLimits } from '../../../src/checks/policy.ts';
import { Random } from '../../../src/numerics/random.ts';
import type { Job } from '../../../src/records/tables/jobs.ts';
import { pressureMoves } from '../../../src/traces/pressure-moves.ts';
import type { PressureSeries } from '../../../src/traces/pressure-series.ts';
import { airPa, loggedTest, psig, psiPa } from './logged-test.ts';

const job: Job = { job_id: 'J-1', started_at: '2026-06-01T08:00:00Z', barometer_pa: airPa };
const hour = 3600;

type Row = readonly [elapsedS: number, psig: number, lineC?: number];

function byHand(rows: readonly Row[]): PressureSeries {
  return {
    elapsedS: Float64Array.from(rows, ([atS]) => atS),
    testPa: Float64Array.from(rows, ([, gauge]) => psig(gauge)),
    lineK: Float64Array.from(rows, ([, , lineC = 21]) => lineC + 273.15),
  };
}

const factsOf = (rows: readonly Row[], record: Partial<Job> = {}) =>
  pressureTestFacts({ job: { ...job, ...record }, series: byHand(rows) });
const outcomeOf = (facts: ReturnType<typeof factsOf>) =>
  pressureNotHeld.judge(facts, resolveLimits(pressureNotHeld, asRecorded, undefined)).outcome;

describe('logs written by hand', () => {
  test('filling and letting off are not in the hold', () => {
    const facts = factsOf([
      [0, 0],
      [120, 500],
      [1920, 500],
      [3720, 500],
      [3780, 0],
    ]);
    expect(facts).toMatchObject({ pressure_hold_start_s: 120, pressure_hold_end_s: 3720 });
    expect(facts.end_test_pa).toBeCloseTo(psig(500), 6);
  });

  test('nor are the stages', () => {
    const rows: Row[] = [
      [0, 0],
      [60, 150],
      [660, 150],
      [720, 450],
      [2520, 450],
      [4320, 450],
      [6120, 450],
      [6180, 0],
    ];
    expect(factsOf(rows)).toMatchObject({ pressure_hold_start_s: 720, pressure_hold_end_s: 6120, pressure_stages: 2 });
  });

  test('one reading between filling and letting off is no hold', () => {
    expect(
      factsOf([
        [0, 0],
        [120, 500],
        [180, 0],
      ]).pressure_problem,
    ).toBe('never-held');
  });

  test('a peak of one reading a minute is a pressure that was there', () => {
    const rows = [
      [0, 0],
      [60, 400],
      [120, 600],
      [180, 500],
      [240, 500],
      [1800, 500],
    ] as const;
    expect(factsOf(rows).highest_test_pa).toBeCloseTo(psig(600), 6);
  });
});

describe('which hold judges', () => {
  const overnight = { psig: 450, holdS: 12 * hour };
  const held = (stages: readonly { psig: number; holdS: number }[], record: Partial<Job> = {}) =>
    pressureTestFacts({ job: { ...job, ...record }, series: loggedTest({ stages, intervalS: 60 }) });

  test('a retest as long as asked goes before a longer first test', () => {
    const stages = [overnight, { psig: 0, holdS: 600 }, { psig: 450, holdS: 2 * hour }];
    expect(held(stages, { test_pressure_hold_s: 900 }).pressure_hold_start_s).toBeGreaterThan(12 * hour);
    expect(held(stages, { test_pressure_hold_s: 12 * hour }).pressure_hold_start_s).toBeLessThan(200);
  });

  test('a target at or below the air is none', () => {
    const stages = [
      { psig: 500, holdS: hour },
      { psig: 50, holdS: 2 * hour },
    ];
    for (const target of [0, airPa])
      expect(held(stages, { test_pressure_target_pa: target }).held_test_pa).toBeGreaterThan(psig(490));
  });

  test('refrigerant that is let in after the vacuum is no test', () => {
    const rows: Row[] = [];
    for (let atS = 0; atS <= 12_000; atS += 30)
      rows.push([atS, atS < 60 ? 0 : atS < 1860 ? 300 : atS < 1920 ? 0 : atS < 6000 ? -14.6 : 270 - atS / 2000]);
    expect(factsOf(rows)).toMatchObject({ pressure_hold_start_s: 60, pressure_hold_end_s: 1830 });
  });

  test.each([5, 10, 20])('topped up by %d psi, each part is a hold of its own', (jumpPsi) => {
    const rows: Row[] = [];
    for (let atS = 0; atS <= 4 * hour; atS += 30)
      rows.push([atS, atS < 60 ? 0 : Math.round(400 - (10 * atS) / (2 * hour) + (atS > 2 * hour ? jumpPsi : 0))]);
    expect(factsOf(rows)).toMatchObject({ pressure_stages: 2, pressure_hold_end_s: 4 * hour });
    expect(factsOf(rows).pressure_hold_start_s).toBeGreaterThanOrEqual(2 * hour);
  });

  test('of which four tenths are not in the log is not judged', () => {
    const { elapsedS, testPa, lineK } = loggedTest({ stages: [{ psig: 500, holdS: 10 * hour }], intervalS: 60 });
    const kept = Array.from(elapsedS.keys()).filter((at) => elapsedS[at] < 3 * hour || elapsedS[at] > 7 * hour);
    const of = (column: Float64Array | undefined) => Float64Array.from(kept, (at) => column?.[at] ?? Number.NaN);
    const series = { elapsedS: of(elapsedS), testPa: of(testPa), lineK: of(lineK) };
    expect(pressureTestFacts({ job, series }).pressure_problem).toBe('gap');
  });
});

describe('instruments that were not what they seemed', () => {
  test.each([-61, -100, 130, 300])('a clamp that shows %d °C was not connected', (lineC) => {
    const facts = factsOf([
      [0, 0, lineC],
      [60, 500, lineC],
      [900, 500, lineC],
      [1800, 500, lineC],
      [3600, 500, lineC],
    ]);
    expect(facts).not.toHaveProperty('held_line_k');
    expect(facts.pressure_drop_pa).toBeUndefined();
    expect(outcomeOf(facts)).not.toBe('pass');
  });

  test('a clamp recorded as faultless is taken for a very good one', () => {
    const series = loggedTest({ stages: [{ psig: 500, holdS: hour }] });
    expect(pressureTestFacts({ job: { ...job, clamp_accuracy_k: 0 }, series }).pressure_drop_pa).toBeDefined();
  });

  test('psi in a column of pascals is below the air', () => {
    const series = { elapsedS: Float64Array.of(0, 60, 1800), testPa: Float64Array.of(14.7, 514.7, 514.7) };
    expect(pressureTestFacts({ job, series })).toMatchObject({ pressure_problem: 'below-air' });
  });

  const hostile = [0, 1e-9, 101325, 3e7, 1e9, Number.MAX_VALUE, Number.POSITIVE_INFINITY, Number.NaN, -5];
  const temperatures = [undefined, 0, 100, 173, 293, 573, 1e6, Number.NaN, Number.POSITIVE_INFINITY];
  test('no figure makes the facts throw', () => {
    for (const first of hostile)
      for (const second of hostile)
        for (const third of hostile)
          for (const kelvin of temperatures) {
            const testPa = Float64Array.of(psig(400), first, second, third, psig(300));
            const lineK = kelvin === undefined ? undefined : Float64Array.of(293, kelvin, kelvin, 293, kelvin);
            for (const elapsedS of [Float64Array.of(0, 60, 120, 180, 240), new Float64Array(5)]) {
              const series = { elapsedS, testPa, lineK };
              const facts = jobFacts(
                { jobId: 'J-1', job, lineSets: [], weighings: [] },
                {
                  tested_volume_l: 5,
                  tested_volume_low_l: 4,
                  tested_volume_high_l: 6,
                  tested_volume_basis: 'tested',
                  ...pressureTestFacts({ job, series }),
                },
              );
              expect(() => tightCourse(series, facts)).not.toThrow();
              expect(outcomeOf(facts)).toBeDefined();
            }
          }
  });

  test('a drop is no better known than the gauge’s own gain: a large one has a wide interval', () => {
    const lostPsi = 100;
    const series = loggedTest({ stages: [{ psig: 450, holdS: hour }], lostPsi: (s) => (lostPsi * s) / hour });
    const { pressure_drop_low_pa: low = 0, pressure_drop_high_pa: high = 0 } = pressureTestFacts({ job, series });
    expect((high - low) / psiPa).toBeGreaterThan(4);
  });
});

describe('what a fresh look found', () => {
  const level = (psigAt: (atS: number) => number, endS: number, stepS: number): Row[] =>
    Array.from({ length: endS / stepS + 1 }, (_, at) => [at * stepS, psigAt(at * stepS)] as const);

  test.each([1, 10, 60])(
    'a strength test that is let down within a minute is a hold of its own, read each %d s',
    (stepS) => {
      const psigAt = (s: number) =>
        s < 60 ? (330 * s) / 60 : s <= 660 ? 330 : s <= 720 ? 330 - (30 * (s - 660)) / 60 : 300;
      const facts = factsOf(level(psigAt, 4320, stepS));
      expect(facts.pressure_stages).toBe(2);
      expect(facts.pressure_hold_start_s).toBeGreaterThanOrEqual(660);
      expect(outcomeOf(facts)).toBe('pass');
    },
  );

  test('jagged readings never make moves that overlap', () => {
    for (let seed = 1; seed <= 3000; seed += 1) {
      const random = new Random(seed);
      let atS = 0;
      const rows: Row[] = Array.from({ length: random.integer(3, 14) }, () => {
        atS += random.integer(1, 5);
        return [atS, random.uniform(0, 600)] as const;
      });
      const moves = pressureMoves(byHand(rows));
      for (const [at, move] of moves.entries()) {
        expect(move.toIndex).toBeGreaterThan(move.fromIndex);
        if (at > 0) expect(move.fromIndex).toBeGreaterThanOrEqual(moves[at - 1].toIndex);
      }
      expect(() => factsOf(rows)).not.toThrow();
    }
  });

  test('one wild reading of the clamp hides no leak, and is no temperature of the pipe', () => {
    const rows = level((s) => (s < 60 ? 0 : 300 - (30 * (s - 60)) / 7200), 7260, 5).map(
      ([atS, gauge]): Row => [atS, gauge, atS === 3600 ? 60 : 21],
    );
    const facts = factsOf(rows);
    expect(outcomeOf(facts)).toBe('fail');
    expect(facts.warmest_line_k).toBeLessThan(295);
  });

  test('one reading a little too high, once a minute, is no topping up', () => {
    const rows = level((s) => (s < 60 ? 0 : s === 1800 ? 315 : 300), 3660, 60);
    expect(factsOf(rows)).toMatchObject({ pressure_stages: 1, pressure_hold_start_s: 60, pressure_hold_end_s: 3660 });
  });

  test('a retest after the vacuum that reaches what was asked judges', () => {
    const psigAt = (s: number) =>
      s < 60 ? 0 : s < 3660 ? 300 - s / 180 : s < 3720 ? 0 : s < 7200 ? -14.6 : s < 7260 ? 0 : 285;
    const rows = level(psigAt, 14_400, 30);
    expect(factsOf(rows, { test_pressure_target_pa: psig(285) }).pressure_hold_start_s).toBeGreaterThan(7000);
  });

  test('a log that stops while it is filled shows nothing either way', () => {
    expect(
      factsOf([
        [0, 0],
        [10, 100],
        [20, 200],
      ]).pressure_problem,
    ).toBe('cut');
  });
});
