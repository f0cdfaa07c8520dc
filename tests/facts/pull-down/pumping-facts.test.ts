import { describe, expect, test } from 'vitest';
import type { MeasuredRecords } from '../../../src/facts/job-material.ts';
import { lastPull } from '../../../src/facts/pull-down/last-pull.ts';
import { pullDownProfile } from '../../../src/facts/pull-down/pull-down-profile.ts';
import { pumpingFacts } from '../../../src/facts/pull-down/pumping-facts.ts';
import type { TestedVolume } from '../../../src/facts/tested-volume.ts';
import type { Facts } from '../../../src/records/tables/facts.ts';
import { findVacuumPhases } from '../../../src/traces/vacuum-phases.ts';
import type { VacuumSeries } from '../../../src/traces/vacuum-series.ts';
import { MICRON_PA, SyntheticLog } from '../synthetic-log.ts';

/** Of a small single-zone ductless system, its pump and hose. */
const job = {
  pump_speed_l_per_s: 2.8,
  hose_bore_mm: 6.35,
  hose_length_m: 1.5,
  cores_removed: true,
} satisfies MeasuredRecords['job'];
const volume: TestedVolume = { volumeL: 2.5, lowL: 2.25, highL: 2.75, basis: 'tested' };
const targetPa = 250 * MICRON_PA;
const atmosphere = 760_000;

function pumping(
  series: VacuumSeries,
  record: MeasuredRecords['job'] = job,
  of: TestedVolume | 'unknown' = volume,
  target = targetPa,
): Partial<Facts> {
  const pull = lastPull(findVacuumPhases(series, target).phases);
  if (pull === undefined) throw new Error('no pull');
  const known = of === 'unknown' ? undefined : of;
  return pumpingFacts(series, pull, pullDownProfile(series, pull), { job: record }, known, target);
}

/** Idle for 20 s, then an exponential fall by e every `timeConstantS`, down to 30 µm. */
function log(timeConstantS: number, options: ConstructorParameters<typeof SyntheticLog>[0] = {}): SyntheticLog {
  return new SyntheticLog({ intervalS: 1, noiseRatio: 0.003, ...options })
    .hold(atmosphere, 20)
    .stretch(400, (s) => 30 + (atmosphere - 30) * Math.exp(-s / timeConstantS));
}

describe('the measured pull-down', () => {
  test('runs from the start of the pull to the target', () => {
    // From 760 000 to 250 µm, 30 µm of them left over.
    const trueS = 15 * Math.log((atmosphere - 30) / (250 - 30));
    expect(Math.abs((pumping(log(15).series()).pull_down_s ?? 0) - trueS)).toBeLessThan(3);
  });

  test('one low reading above the target does not count', () => {
    const series = log(15).series();
    series.vacuumPa[60] = 10;
    expect(pumping(series).pull_down_s).toBeCloseTo(pumping(log(15).series()).pull_down_s ?? 0, 6);
  });

  test('is not told where the target was not reached, the log begins in its midst, or a gap may hide it', () => {
    expect(pumping(log(60).series())).not.toHaveProperty('pull_down_s');
    expect(pumping(log(15).series(60))).not.toHaveProperty('pull_down_s');
    const gap = new SyntheticLog({ intervalS: 1 })
      .hold(atmosphere, 20)
      .pull(atmosphere, 3000, 30)
      .gap(200)
      .pull(3000, 30, 100);
    expect(pumping(gap.series())).not.toHaveProperty('pull_down_s');
  });

  test('of the last pull alone, and from where that began', () => {
    // An isolation at some 2000 µm, pumped on again after it.
    const series = log(15)
      .rise(100, 6, 300)
      .stretch(200, (s) => 40 + 1860 * Math.exp(-s / 20))
      .series();
    const found = pumping(series);
    expect(Math.abs((found.pull_down_s ?? 0) - 20 * Math.log(1860 / 210))).toBeLessThan(4);
    expect(found.pull_down_predicted_s).toBeLessThan(pumping(log(15).series()).pull_down_predicted_s ?? 0);
  });
});

describe('the measured speed', () => {
  test('is 1 over the time constant, within 2 %, between two pressures of the rough range', () => {
    const found = pumping(log(12).series());
    expect(Math.abs((found.pump_rate_per_s ?? 0) * 12 - 1)).toBeLessThan(0.02);
    expect(found.pumped_from_pa).toBeLessThanOrEqual(30_000);
    expect(found.pumped_from_pa).toBeGreaterThan(27_000);
    expect(found.pumped_to_pa).toBeGreaterThanOrEqual(300);
    expect(found.pumped_to_pa).toBeLessThan(330);
  });

  test('begins in the range of a gauge that begins below the atmosphere', () => {
    const found = pumping(log(12, { rangeMicrons: 20_000 }).series());
    expect(Math.abs((found.pump_rate_per_s ?? 0) * 12 - 1)).toBeLessThan(0.02);
    expect(found.pumped_from_pa).toBeLessThan(20_000 * MICRON_PA);
    expect(found.pumped_from_pa).toBeGreaterThan(15_000 * MICRON_PA);
  });

  test('ends well above the deepest where the pull levels off early', () => {
    const series = new SyntheticLog({ intervalS: 1 })
      .hold(atmosphere, 20)
      .stretch(400, (s) => 4000 + (atmosphere - 4000) * Math.exp(-s / 12))
      .series();
    expect(pumping(series).pumped_to_pa).toBeGreaterThan(3 * 4000 * MICRON_PA);
  });

  test('is not told from a range too small, too few readings, or over a gap', () => {
    expect(pumping(log(12, { rangeMicrons: 4000 }).series())).toMatchObject({ prediction_problem: 'not-seen' });
    expect(pumping(log(12, { intervalS: 30 }).series())).toMatchObject({ prediction_problem: 'not-seen' });
    const gap = new SyntheticLog({ intervalS: 1, rangeMicrons: 20_000 })
      .hold(atmosphere, 20)
      .pull(atmosphere, 10_000, 30)
      .gap(100)
      .pull(10_000, 30, 60);
    const found = pumping(gap.series());
    expect(found).toMatchObject({ prediction_problem: 'not-seen' });
    expect(found).not.toHaveProperty('pump_rate_per_s');
  });
});

describe('the prediction', () => {
  test('of a small ductless system to 250 µm: minutes, not seconds, not hours (common practice, no source)', () => {
    const series = log(12).series();
    // A hose of 1/4 in has that bore, or 0.19 in where only its fittings are of 1/4 in.
    for (const boreMm of [6.35, 4.83]) {
      const found = pumping(series, { ...job, hose_bore_mm: boreMm });
      expect(found.pull_down_predicted_s).toBeGreaterThan(60);
      expect(found.pull_down_predicted_s).toBeLessThan(600);
    }
  });

  test('goes with the volume; a core left in, a longer hose and a slower pump take longer', () => {
    const series = log(12).series();
    const seconds = (record: MeasuredRecords['job'], of?: TestedVolume) =>
      pumping(series, record, of).pull_down_predicted_s ?? 0;
    const usual = seconds(job);
    expect(seconds(job, { ...volume, volumeL: 5 })).toBeCloseTo(2 * usual, 9);
    expect(seconds({ ...job, cores_removed: false })).toBeGreaterThan(1.5 * usual);
    expect(seconds({ ...job, hose_length_m: 3 })).toBeGreaterThan(1.5 * usual);
    expect(seconds({ ...job, pump_speed_l_per_s: 0.5 })).toBeGreaterThan(usual);
    expect(seconds({ ...job, cores_removed: undefined })).toBe(usual);
  });

  test('begins at the atmosphere of the site: by barometer, else by altitude', () => {
    const series = log(12).series();
    const seconds = (more: MeasuredRecords['job']) => pumping(series, { ...job, ...more }).pull_down_predicted_s ?? 0;
    const usual = seconds({});
    expect(seconds({ altitude_m: 1600 })).toBeLessThan(usual);
    expect(seconds({ altitude_m: 1600, barometer_pa: 101_325 })).toBeCloseTo(usual, 9);
  });

  test('a pump that pulls as predicted is at 1, wherever the gauge sits', () => {
    // Nothing but a pump on the volume: 0.25 L/s over 2.5 L, a time constant of 10 s.
    const record = { ...job, pump_speed_l_per_s: 0.25, hose_bore_mm: 50, hose_length_m: 0.1 };
    const series = log(10, { noiseRatio: 0 }).series();
    for (const gauge_position of ['system', 'pump'] as const) {
      const { pump_rate_per_s: rate = 0, predicted_pump_rate_per_s: predicted = 0 } = pumping(series, {
        ...record,
        gauge_position,
      });
      expect(Math.abs(rate / predicted - 1)).toBeLessThan(0.02);
    }
  });

  test('names what it lacks', () => {
    const series = log(12).series();
    expect(pumping(series, {}).prediction_problem).toBe('no-pump');
    expect(pumping(series, { ...job, pump_speed_l_per_s: 0 }).prediction_problem).toBe('no-pump');
    expect(pumping(series, { ...job, hose_bore_mm: undefined }).prediction_problem).toBe('no-hose');
    expect(pumping(series, { ...job, hose_length_m: undefined }).prediction_problem).toBe('no-hose');
    expect(pumping(series).prediction_problem).toBeUndefined();
    const without = pumping(series, job, 'unknown');
    expect(without.prediction_problem).toBe('no-volume');
    expect(without).not.toHaveProperty('predicted_pump_rate_per_s');
    expect(without).not.toHaveProperty('pull_down_predicted_s');
    expect(without.pump_rate_per_s).toBeGreaterThan(0);
  });

  test('never ends at a target below what pumps reach', () => {
    expect(pumping(log(12).series(), job, volume, 2)).not.toHaveProperty('pull_down_predicted_s');
  });
});
