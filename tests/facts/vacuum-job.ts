import type { VacuumMaterial } from '../../src/facts/job-material.ts';
import { vacuumFacts } from '../../src/facts/vacuum-facts.ts';
import type { Facts } from '../../src/records/tables/facts.ts';
import type { VacuumSeries } from '../../src/traces/vacuum-series.ts';
import { MICRON_PA, SyntheticLog, type SyntheticLogOptions } from './synthetic-log.ts';

/** When every job of these tests began. */
export const started_at = '2026-03-05T14:30:00+01:00';
/** Where every pull begins [µm]. */
export const atmosphere = 650_000;

/** A job with a vacuum log and a target of 500 µm. */
export function material(series: VacuumSeries | VacuumSeries[], more: Partial<VacuumMaterial> = {}): VacuumMaterial {
  return {
    job: { vacuum_target_pa: 500 * MICRON_PA },
    series: Array.isArray(series) ? series : [series],
    marks: [],
    ...more,
  };
}

/** What the vacuum log of such a job shows. */
export function facts(series: VacuumSeries | VacuumSeries[], more: Partial<VacuumMaterial> = {}): Partial<Facts> {
  return vacuumFacts(material(series, more));
}

/** Idle 20 s, pull 600 s to 300 µm, hold 600 s, rise of 0.5 µm/s for 600 s: valve-off at 1220 s, by construction. */
export function job(options: SyntheticLogOptions = {}): SyntheticLog {
  return new SyntheticLog({ noiseRatio: 0.005, ...options })
    .hold(atmosphere, 20)
    .pull(atmosphere, 300, 600)
    .hold(300, 600)
    .rise(300, 0.5, 600);
}
