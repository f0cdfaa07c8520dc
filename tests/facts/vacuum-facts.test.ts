import { describe, expect, test } from 'vitest';
import { jobFacts } from '../../src/facts/job-facts.ts';
import { facts as factsTable } from '../../src/records/tables/facts.ts';
import { MICRON_PA, SyntheticLog } from './synthetic-log.ts';
import { atmosphere, facts, job, started_at } from './vacuum-job.ts';

describe('pull, hold, isolation', () => {
  test('pull, hold and rise are found where they were drawn', () => {
    const found = facts(job().series());
    expect(found.pulls).toBe(1);
    expect(Math.abs((found.isolation_start_s ?? 0) - 1220)).toBeLessThanOrEqual(10);
    expect(found.isolation_end_s).toBe(1820);
    expect(found.isolation_start_low_s).toBeLessThanOrEqual(1220);
    expect(found.isolation_start_high_s).toBeGreaterThanOrEqual(1220);
    expect(found.isolation_basis).toBe('pressure');
    expect(found.pumped_until).toBe('isolation');
    expect(Math.abs((found.isolation_pa ?? 0) / MICRON_PA - 300)).toBeLessThan(4);
    expect(Math.abs((found.isolation_end_pa ?? 0) / MICRON_PA - 600)).toBeLessThan(8);
    expect(Math.abs((found.rise_pa ?? 0) / MICRON_PA - 300)).toBeLessThan(10);
    expect(found.leak_pa_per_s).toBeGreaterThan(0.49 * MICRON_PA);
    expect(found.leak_pa_per_s).toBeLessThan(0.51 * MICRON_PA);
    expect(found.leak_low_pa_per_s).toBeLessThanOrEqual(0.5 * MICRON_PA);
    expect(found.leak_high_pa_per_s).toBeGreaterThanOrEqual(0.5 * MICRON_PA);
    expect(Math.abs((found.pull_down_start_s ?? 0) - 20)).toBeLessThanOrEqual(6);
    expect(found.deepest_pa).toBeLessThan(301 * MICRON_PA);
  });

  test('the hold is the time at or below the target with the pump connected', () => {
    // Falls in a straight line from 1000 to 400 µm in 600 s: at or below 500 µm for the last 100 s. Then 400 s at 400 µm.
    const log = new SyntheticLog()
      .hold(atmosphere, 10)
      .pull(atmosphere, 1000, 100)
      .stretch(600, (s) => 1000 - s)
      .hold(400, 400)
      .rise(400, 2, 300);
    const found = facts(log.series());
    expect(Math.abs((found.hold_s ?? 0) - 500)).toBeLessThanOrEqual(6);
    expect(Math.abs((found.isolation_start_s ?? 0) - 1110)).toBeLessThanOrEqual(4);
  });

  test('a log that ends while the pump is on: no isolation, and it says what ended it', () => {
    const found = facts(new SyntheticLog().hold(atmosphere, 20).pull(atmosphere, 300, 600).hold(300, 200).series());
    expect(found).toMatchObject({ pulls: 1, pumped_until: 'log-end', rise_shape: 'absent' });
    expect(found).not.toHaveProperty('isolation_start_s');
  });

  test('a vacuum ended straight from the pump: no isolation', () => {
    const log = new SyntheticLog({ noiseRatio: 0.01 }).hold(atmosphere, 20).pull(atmosphere, 300, 600);
    const found = facts(log.hold(300, 300).break(60).series());
    expect(found).toMatchObject({ pulls: 1, pumped_until: 'break', rise_shape: 'absent' });
  });

  test('a break after the rise ends the isolation; the charge that follows is no rise', () => {
    const found = facts(job().break(120).series());
    expect(Math.abs((found.isolation_end_s ?? 0) - 1820)).toBeLessThanOrEqual(2);
    expect(Math.abs((found.isolation_end_pa ?? 0) / MICRON_PA - 600)).toBeLessThan(8);
  });

  test('triple evacuation: three pulls, and only the last one judges', () => {
    const log = new SyntheticLog({ noiseRatio: 0.005 })
      .hold(atmosphere, 20)
      .pull(atmosphere, 1500, 300)
      .break(120)
      .pull(700_000, 1500, 300)
      .break(120)
      .pull(700_000, 250, 600)
      .hold(250, 300);
    const valveOffS = log.nowS;
    const found = facts(log.rise(250, 0.2, 600).series());
    expect(found.pulls).toBe(3);
    expect(Math.abs((found.pull_down_start_s ?? 0) - 860)).toBeLessThanOrEqual(6);
    expect(Math.abs((found.isolation_start_s ?? 0) - valveOffS)).toBeLessThanOrEqual(20);
  });

  test('isolation that failed, nitrogen, pumped and isolated again: the last one judges', () => {
    const log = job({ seed: 2 });
    log.rise(600, 4, 300).break(120).pull(700_000, 200, 600).hold(200, 300);
    const valveOffS = log.nowS;
    const found = facts(log.rise(200, 0.3, 600).series());
    expect(found.pulls).toBe(2);
    expect(Math.abs((found.isolation_start_s ?? 0) - valveOffS)).toBeLessThanOrEqual(20);
    expect(Math.abs((found.rise_pa ?? 0) / MICRON_PA - 180)).toBeLessThan(8);
  });
});

describe('isolated, then pumped on without a break', () => {
  const again = (toMicrons: number) =>
    job({ seed: 3 }).stretch(300, (s) => toMicrons + (600 - toMicrons) * Math.exp(-s / 40));

  test('pumped on until the log ends: the first isolation does not judge', () => {
    const found = facts(again(250).series());
    expect(found).toMatchObject({ pulls: 2, pumped_until: 'log-end', rise_shape: 'absent' });
    expect(Math.abs((found.pull_down_start_s ?? 0) - 1820)).toBeLessThanOrEqual(6);
    expect(found).not.toHaveProperty('isolation_start_s');
  });

  test('the same where it never gets down to the target again', () => {
    const target = { job: { job_id: 'j1', started_at, vacuum_target_pa: 100 * MICRON_PA } };
    const found = facts(again(250).series(), target);
    expect(found).toMatchObject({ pulls: 2, pumped_until: 'log-end', rise_shape: 'absent', hold_s: 0 });
  });

  test('pumped on and isolated again: the second isolation judges', () => {
    const found = facts(again(250).rise(250, 0.3, 600).series());
    expect(found.pulls).toBe(2);
    expect(Math.abs((found.isolation_start_s ?? 0) - 2120)).toBeLessThanOrEqual(15);
    expect(found.isolation_start_low_s).toBeLessThanOrEqual(2120);
    expect(found.isolation_start_high_s).toBeGreaterThanOrEqual(2120);
    expect(Math.abs((found.rise_pa ?? 0) / MICRON_PA - 180)).toBeLessThan(12);
  });

  test('a coarse gauge that flickers by one step is not pumped again', () => {
    const log = new SyntheticLog({ noiseRatio: 0.02, stepMicrons: 10, seed: 5 });
    const found = facts(log.hold(atmosphere, 20).pull(atmosphere, 15, 600).hold(15, 600).rise(60, 0.2, 600).series());
    expect(found.pulls).toBe(1);
    expect(Math.abs((found.isolation_start_s ?? 0) - 1220)).toBeLessThanOrEqual(6);
  });
});

describe('what the log may lack', () => {
  test('begun with the valve closed: an isolation from the first reading on, no pull, the level after ten seconds', () => {
    const found = facts(new SyntheticLog({ intervalS: 1 }).rise(300, 0.5, 600).series());
    expect(found.pulls).toBe(0);
    expect([found.isolation_start_s, found.isolation_start_low_s, found.isolation_start_high_s]).toEqual([1, 1, 1]);
    expect(found).not.toHaveProperty('pumped_until');
    expect(found).not.toHaveProperty('pull_down_start_s');
    // Median of the readings at 11 to 15 s: 306.5 µm; of the last five, 598 … : 599 µm.
    expect(found.isolation_pa).toBeCloseTo(306.5 * MICRON_PA, 6);
    expect(found.isolation_end_pa).toBeCloseTo(599 * MICRON_PA, 6);
    expect(found.leak_pa_per_s).toBeCloseTo(0.5 * MICRON_PA, 9);
  });

  test('cut during the pull: still one pull, and the isolation at its place', () => {
    const found = facts(job().series(900));
    expect(found.pulls).toBe(1);
    expect(Math.abs((found.isolation_start_s ?? 0) - 320)).toBeLessThanOrEqual(10);
  });

  test('cut during the isolation: what there is of it', () => {
    const found = facts(job().series(0, 1500));
    expect(found.isolation_end_s).toBe(1500);
    expect(Math.abs((found.rise_pa ?? 0) / MICRON_PA - 140)).toBeLessThan(8);
  });

  test('a gap during the hold hides nothing', () => {
    const log = new SyntheticLog({ noiseRatio: 0.005 }).hold(atmosphere, 20).pull(atmosphere, 300, 600).hold(300, 200);
    const found = facts(log.gap(200).hold(300, 200).rise(300, 0.5, 600).series());
    expect(Math.abs((found.isolation_start_s ?? 0) - 1220)).toBeLessThanOrEqual(10);
  });

  test('a rise beyond the range of the gauge: the last reading within it is the least that was reached', () => {
    const log = new SyntheticLog({ rangeMicrons: 20_000 }).hold(atmosphere, 20).pull(atmosphere, 300, 600);
    const found = facts(log.hold(300, 300).rise(300, 50, 900).series());
    expect(found.isolation_end_pa).toBeGreaterThan(19_000 * MICRON_PA);
    expect(found.isolation_end_pa).toBeLessThanOrEqual(20_000 * MICRON_PA);
    expect(found.leak_pa_per_s).toBeCloseTo(50 * MICRON_PA, 2);
  });

  test('a gauge that flickers between its last value and over range gives numbers all the same', () => {
    const log = new SyntheticLog({ intervalS: 1 }).rise(3000, 10, 300);
    const { elapsedS, vacuumPa, gauge: name } = log.series();
    for (let i = 250; i < 300; i += 5) vacuumPa[i] = Number.POSITIVE_INFINITY;
    const found = facts({ gauge: name, elapsedS, vacuumPa });
    expect(found.leak_pa_per_s).toBeCloseTo(10 * MICRON_PA, 6);
    expect(found.isolation_end_pa).toBeCloseTo(5480 * MICRON_PA, 6);
    expect(factsTable.schema.safeParse({ job_id: 'j1', ...found }).success).toBe(true);
  });

  test('never within its range: no depth, no pull', () => {
    const found = facts(new SyntheticLog({ rangeMicrons: 20_000 }).hold(atmosphere, 300).series());
    expect(found).toMatchObject({ pulls: 0, rise_shape: 'absent', vacuum_readings: 150 });
    expect(found).not.toHaveProperty('deepest_pa');
  });

  test('a gauge that shows 0 below its step: 0 is a reading', () => {
    const log = new SyntheticLog({ stepMicrons: 10 }).hold(atmosphere, 20).pull(atmosphere, 4, 600).hold(4, 600);
    const found = facts(log.rise(40, 0.5, 600).series());
    expect(found.deepest_pa).toBe(0);
    expect(found.pulls).toBe(1);
    expect(Math.abs((found.isolation_start_s ?? 0) - 1220)).toBeLessThanOrEqual(4);
    // Pulled below 500 µm 624 s after the start (950 µm at 620 s), valve-off at 1220 s.
    expect(Math.abs((found.hold_s ?? 0) - 599)).toBeLessThanOrEqual(3);
  });

  test('a gauge that shows nothing but 0 shows nothing', () => {
    expect(facts({ gauge: null, elapsedS: Float64Array.of(1, 2, 3), vacuumPa: new Float64Array(3) })).toEqual({});
  });

  test('nine readings are too few, ten are not; none at all is no log', () => {
    const log = new SyntheticLog().pull(atmosphere, 300, 200).series();
    const first = (count: number) => ({
      gauge: null,
      elapsedS: log.elapsedS.slice(0, count),
      vacuumPa: log.vacuumPa.slice(0, count),
    });
    expect(facts(first(9))).toMatchObject({ vacuum_readings: 9, vacuum_problem: 'too-few-readings' });
    expect(facts(first(10))).not.toHaveProperty('vacuum_problem');
    expect(facts(first(0))).toEqual({});
    expect(facts([])).toEqual({});
  });

  test('rows in which the gauge was not read are left out', () => {
    const { elapsedS, vacuumPa } = job().series();
    const holed = vacuumPa.map((pa, index) => (index % 7 === 3 ? Number.NaN : pa));
    const found = facts({ gauge: null, elapsedS, vacuumPa: holed });
    expect(found.vacuum_readings).toBe(holed.filter((pa) => !Number.isNaN(pa)).length);
    expect(Math.abs((found.isolation_start_s ?? 0) - 1220)).toBeLessThanOrEqual(12);
  });

  test('readings without a record: facts exist anyway, and hold to the schema', () => {
    const found = jobFacts({ jobId: 'j1', lineSets: [], weighings: [] }, facts(job().series(), { job: undefined }));
    expect(found.pulls).toBe(1);
    expect(found).not.toHaveProperty('charge_problem');
    expect(factsTable.schema.safeParse(found).success).toBe(true);
  });
});
