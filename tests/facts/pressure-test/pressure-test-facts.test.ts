import { describe, expect, test } from 'vitest';
import { pressureTestFacts } from '../../../src/facts/pressure-test/pressure-test-facts.ts';
import { Random } from '../../../src/numerics/random.ts';
import type { Job } from '../../../src/records/tables/jobs.ts';
import { airPa, kelvin, type LoggedTest, loggedTest, psig, psiPa } from './logged-test.ts';

const job: Job = { job_id: 'J-1', started_at: '2026-06-01T08:00:00Z', barometer_pa: airPa };
const factsOf = (logged: LoggedTest, record: Partial<Job> = {}) =>
  pressureTestFacts({ job: { ...job, ...record }, series: loggedTest(logged) });
const psi = (pa: number | undefined) => (pa ?? Number.NaN) / psiPa;
const hour = 3600;

describe('the hold that is judged', () => {
  test('is the last one at full pressure, however it was reached, and not the ramp', () => {
    const facts = factsOf({
      stages: [
        { psig: 10, holdS: 300 },
        { psig: 150, holdS: 300 },
        { psig: 500, holdS: hour },
      ],
      released: true,
    });
    expect(facts.pressure_stages).toBe(3);
    expect(facts.pressure_hold_start_s).toBe(60 + 30 + 300 + 30 + 300 + 30);
    expect(facts.pressure_hold_end_s).toBe(750 + hour);
    expect(facts.pressure_settled_s).toBe(750 + 300);
    expect(psi(facts.held_test_pa)).toBeCloseTo(514.696, 2);
    expect(psi(facts.highest_test_pa)).toBeCloseTo(514.696, 2);
  });

  test('after a first one that was mended is the second', () => {
    const facts = factsOf({
      stages: [
        { psig: 500, holdS: 1200 },
        { psig: 300, holdS: 600 },
        { psig: 500, holdS: 1800 },
      ],
    });
    expect(facts.pressure_hold_start_s).toBe(60 + 30 + 1200 + 30 + 600 + 30);
  });

  test('of a strength test and a tightness test is the longer, lower one', () => {
    const stages = [
      { psig: 550, holdS: 300 },
      { psig: 500, holdS: 2 * hour },
    ];
    const facts = factsOf({ stages, lineF: (s) => 70 + Math.sin(s / 600), stepPsi: 1 });
    expect(facts.pressure_hold_end_s).toBe(60 + 30 + 300 + 30 + 2 * hour);
    expect(Math.abs(psi(facts.held_test_pa) - 514.696)).toBeLessThan(2);
  });

  test('is at what the record asks for, where it was gone above that', () => {
    const stages = [
      { psig: 550, holdS: 600 },
      { psig: 300, holdS: hour },
    ];
    expect(psi(factsOf({ stages }).held_test_pa)).toBeGreaterThan(540);
    expect(psi(factsOf({ stages }, { test_pressure_target_pa: psig(300) }).held_test_pa)).toBeLessThan(320);
  });

  test('is none where the nitrogen was let off again at once, and where there is one reading', () => {
    expect(factsOf({ stages: [{ psig: 300, holdS: 10 }], released: true })).toMatchObject({
      pressure_problem: 'never-held',
      pressure_stages: 0,
    });
    const series = { elapsedS: Float64Array.of(60), testPa: Float64Array.of(psig(300)) };
    expect(pressureTestFacts({ job, series })).toMatchObject({
      pressure_problem: 'too-few-readings',
      pressure_readings: 1,
    });
    expect(pressureTestFacts({ job, series: { elapsedS: new Float64Array(), testPa: new Float64Array() } })).toEqual(
      {},
    );
  });

  test('of which the log leaves out most is not judged', () => {
    const { elapsedS, testPa, lineK } = loggedTest({ stages: [{ psig: 500, holdS: 4 * hour }] });
    const kept = Array.from(elapsedS.keys()).filter((at) => elapsedS[at] < 900 || elapsedS[at] > 3.5 * hour);
    const of = (column: Float64Array | undefined) => Float64Array.from(kept, (at) => column?.[at] ?? Number.NaN);
    const series = { elapsedS: of(elapsedS), testPa: of(testPa), lineK: of(lineK) };
    const facts = pressureTestFacts({ job, series });
    expect(facts.pressure_problem).toBe('gap');
    expect(facts.pressure_drop_pa).toBeUndefined();
  });
});

describe('what was to be expected', () => {
  test('600 psig at 70 °F is 638.31 psig at 100 °F (CoolProp 8.0)', () => {
    // 70 °F until the gas has settled, then on to 100 °F.
    const lineF = (sinceS: number) => 70 + 30 * Math.min(1, Math.max(0, (sinceS - 400) / hour));
    const facts = factsOf({ stages: [{ psig: 600, holdS: 2 * hour }], lineF });
    expect(psi((facts.expected_end_test_pa ?? 0) - airPa)).toBeCloseTo(638.31, 2);
    expect(psi((facts.end_test_pa ?? 0) - airPa)).toBeCloseTo(638.31, 2);
    expect(facts).toMatchObject({ held_line_k: kelvin(70), end_line_k: kelvin(100) });
    expect(facts.coldest_line_k).toBe(kelvin(70));
    expect(facts.warmest_line_k).toBe(kelvin(100));
  });
});

describe('the corrected drop', () => {
  const sunny = (sinceS: number) => 80 + 8 * Math.sin(sinceS / 700);
  test.each<[string, LoggedTest]>([
    ['nothing moves', { stages: [{ psig: 500, holdS: hour }] }],
    [
      'it warms evenly by 27 °F',
      { stages: [{ psig: 500, holdS: 3 * hour }], lineF: (s) => 70 + (27 * s) / (3 * hour) },
    ],
    [
      'it cools evenly by 27 °F',
      { stages: [{ psig: 500, holdS: 3 * hour }], lineF: (s) => 90 - (27 * s) / (3 * hour) },
    ],
    ['sun and cloud', { stages: [{ psig: 450, holdS: 2 * hour }], lineF: sunny }],
    [
      'sun and cloud on a gauge in steps of 1 psi',
      { stages: [{ psig: 450, holdS: 2 * hour }], lineF: sunny, stepPsi: 1 },
    ],
  ])('is none, though %s', (_, logged) => {
    const facts = factsOf(logged);
    expect(Math.abs(psi(facts.pressure_drop_pa))).toBeLessThan(0.25);
    expect(facts.pressure_drop_low_pa).toBeLessThan(0);
    expect(facts.pressure_drop_high_pa).toBeGreaterThan(0);
    expect(facts.pressure_drop_sure_pa).toBeLessThan(facts.pressure_drop_low_pa ?? 0);
  });

  test.each([8, 27])('of %d psi shows, though the sun comes and goes', (lostPsi) => {
    const holdS = 2 * hour;
    const facts = factsOf({
      stages: [{ psig: 450, holdS }],
      lineF: sunny,
      lostPsi: (s) => (lostPsi * s) / holdS,
      stepPsi: 1,
    });
    // What was lost while the gas settled is not counted.
    const judged = lostPsi * (1 - 300 / holdS);
    expect(psi(facts.pressure_drop_pa)).toBeGreaterThan(0.95 * judged - 0.3);
    expect(psi(facts.pressure_drop_pa)).toBeLessThan(1.05 * judged + 0.3);
    expect(facts.pressure_drop_sure_pa).toBeGreaterThan(0);
    expect(facts.smallest_drop_seen_pa).toBeLessThan(lostPsi * psiPa);
  });

  test('that the day’s warmth hides on the gauge shows all the same', () => {
    const holdS = 4 * hour;
    const warming = (s: number) => 70 + (10 * s) / holdS + 4 * Math.sin(s / 900);
    const facts = factsOf({ stages: [{ psig: 500, holdS }], lineF: warming, lostPsi: (s) => (10 * s) / holdS });
    expect(Math.abs(psi(facts.read_drop_pa))).toBeLessThan(4);
    expect(facts.pressure_drop_sure_pa).toBeGreaterThan(0);
  });

  test('is known better by a clamp that is good than by one that is not, and by a fine gauge than by a coarse one', () => {
    const random = new Random(5);
    const wandering = Array.from({ length: 4000 }, () => random.normal(0, 0.15));
    const lineF = (s: number) => 75 + 5 * Math.sin(s / 1500) + wandering[Math.floor(s / 5)];
    const width = (logged: Partial<LoggedTest>, record: Partial<Job>) => {
      const facts = factsOf({ stages: [{ psig: 500, holdS: hour }], lineF, ...logged }, record);
      return (facts.pressure_drop_high_pa ?? 0) - (facts.pressure_drop_low_pa ?? 0);
    };
    expect(width({}, { clamp_accuracy_k: 0.3 })).toBeLessThan(width({}, { clamp_accuracy_k: 2 }));
    expect(width({ stepPsi: 0.1 }, {})).toBeLessThan(width({ stepPsi: 5 }, {}));
  });
});

describe('without the pipe’s temperature', () => {
  const stages = [{ psig: 500, holdS: hour }];
  test('a drop is read, and the cooling that would explain it', () => {
    const facts = factsOf({ stages, lineF: (s) => 70 - (10 * Math.max(0, s - 330)) / 3270, clamp: false });
    expect(facts.pressure_drop_pa).toBeUndefined();
    // 0.972 psi a °F at 500 psig and 70 °F for an ideal gas (P/T); real nitrogen moves 8 % more.
    expect(psi(facts.read_drop_pa)).toBeGreaterThan(9.7);
    expect(psi(facts.read_drop_pa)).toBeLessThan(11);
    expect((facts.explaining_cooling_k ?? 0) * 1.8).toBeCloseTo(10, 0);
  });

  test('at its end there is no corrected drop either', () => {
    const { elapsedS, testPa, lineK } = loggedTest({ stages });
    const gone = lineK?.map((k, at) => (elapsedS[at] > 3000 ? Number.NaN : k));
    const facts = pressureTestFacts({ job, series: { elapsedS, testPa, lineK: gone } });
    expect(facts.pressure_drop_pa).toBeUndefined();
    expect(facts.read_drop_pa).toBeDefined();
  });
});

describe('the pipe’s temperature at both ends is enough', () => {
  const stages = [{ psig: 500, holdS: 12 * hour }];
  const lineF = (s: number) => 70 - (10 * s) / (12 * hour);
  const dropOf = (lostPsi: number, isRead: (atS: number) => boolean) => {
    const { elapsedS, testPa, lineK } = loggedTest({
      stages,
      lineF,
      lostPsi: (s) => (lostPsi * s) / (12 * hour),
      intervalS: 60,
    });
    const read = lineK?.map((k, at) => (isRead(elapsedS[at]) ? k : Number.NaN));
    return pressureTestFacts({ job, series: { elapsedS, testPa, lineK: read } });
  };
  const width = ({ pressure_drop_low_pa: low = 0, pressure_drop_high_pa: high = 0 }: ReturnType<typeof dropOf>) =>
    high - low;
  const atEnds = (atS: number) => atS < 600 || atS > 12 * hour - 300;

  test('a hole between leaves the drop as it is', () => {
    const [whole, holed] = [dropOf(0, () => true), dropOf(0, (atS) => atS < 4 * hour || atS > 6 * hour)];
    expect(Math.abs(psi(holed.pressure_drop_pa))).toBeLessThan(0.5);
    expect(width(holed)).toBeGreaterThan(0.9 * width(whole));
  });

  test('with none between, the interval is no narrower, and a drop shows', () => {
    expect(width(dropOf(0, atEnds))).toBeGreaterThan(0.9 * width(dropOf(0, () => true)));
    expect(Math.abs(psi(dropOf(0, atEnds).pressure_drop_pa))).toBeLessThan(1);
    expect(dropOf(40, atEnds).pressure_drop_sure_pa).toBeGreaterThan(0);
  });
});

test('two readings by hand, one in the evening and one in the morning, tell a large drop from the night', () => {
  // 500 psig at 70 °F is 490.28 psig at 60 °F, by P/T.
  const night = (lostPsi: number) =>
    pressureTestFacts({
      job,
      series: {
        elapsedS: Float64Array.of(0, 12 * hour),
        testPa: Float64Array.of(psig(500), psig(490.28 - lostPsi)),
        lineK: Float64Array.of(kelvin(70), kelvin(60)),
      },
    });
  expect(night(0)).toMatchObject({ pressure_hold_start_s: 0, pressure_hold_end_s: 12 * hour });
  expect(night(0).pressure_drop_low_pa).toBeLessThan(0);
  expect(night(0).pressure_drop_high_pa).toBeGreaterThan(0);
  expect(night(200).pressure_drop_sure_pa).toBeGreaterThan(0);
});

test('five readings by hand over a night tell a drop too, with an interval that says how well', () => {
  const hours = [0, 0.1, 6, 12, 24];
  // 500 psig at 70 °F is 496.11, 493.20 and 490.28 psig at 66, 63 and 60 °F, by P/T.
  const series = (lostPsi: number) => ({
    elapsedS: Float64Array.from(hours, (h) => h * hour),
    testPa: Float64Array.from([500, 500, 496.11, 493.2, 490.28], (gauge, at) =>
      psig(gauge - (lostPsi * hours[at]) / 24),
    ),
    lineK: Float64Array.from([70, 70, 66, 63, 60], kelvin),
  });
  const tight = pressureTestFacts({ job, series: series(0) });
  expect(tight.pressure_drop_low_pa).toBeLessThan(0);
  expect(tight.pressure_drop_high_pa).toBeGreaterThan(0);
  const leaking = pressureTestFacts({ job, series: series(40) });
  expect(leaking.pressure_drop_sure_pa).toBeGreaterThan(0);
  expect(psi(leaking.pressure_drop_low_pa)).toBeLessThan(40);
  expect(psi(leaking.pressure_drop_high_pa)).toBeGreaterThan(40);
});

test('changes nothing in what it is given', () => {
  const { elapsedS, testPa, lineK } = loggedTest({ stages: [{ psig: 300, holdS: 900 }] });
  const copies = [elapsedS.slice(), testPa.slice(), lineK?.slice()];
  pressureTestFacts({ job, series: { elapsedS, testPa, lineK } });
  expect([elapsedS, testPa, lineK]).toEqual(copies);
});
