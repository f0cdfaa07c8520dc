import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { vacuumFacts } from '../../src/facts/vacuum-facts.ts';
import { lineFit } from '../../src/numerics/line-fit.ts';
import type { Facts } from '../../src/records/tables/facts.ts';
import { ingest } from '../../src/steps/ingest.ts';
import { judge } from '../../src/steps/judge.ts';
import { streamJobReadings } from '../../src/store/job-stream.ts';
import { type PlainRow, Store } from '../../src/store/store.ts';
import type { VacuumSeries } from '../../src/traces/vacuum-series.ts';
import { tempFolder } from '../store/temp-store.ts';

// Logs that other people measured (GPL-3.0, github.com/justus1304/gitrep and github.com/westherftech/vacuum_pressure_logging):
// read from beside the project where they are, never copied into it.
const logs = fileURLToPath(new URL('../../../shared/reference/logs/', import.meta.url));
const here = existsSync(logs);
const map = (name: string) => fileURLToPath(new URL(`../../pipelines/maps/${name}.json`, import.meta.url));

const skipped = here ? '' : 'skipped: real logs not here: ';

interface Judged {
  facts: Map<string, Facts>;
  findings: PlainRow[];
  series: Map<string, VacuumSeries[]>;
  sources: PlainRow[];
}

/** The whole way: ingest with the map, judge, facts, findings and readings by job. */
async function judged(name: string): Promise<Judged> {
  const store = await Store.open(join(tempFolder(), 'store'), 'write');
  try {
    const result = await ingest(store, [join(logs, name, name === 'lab-pump-34l' ? '*.csv' : '*.txt')], {
      map: map(name),
    });
    expect(result.refusedFiles).toEqual([]);
    await judge(store);
    const facts = await store.rows<PlainRow & { job_id: string }>('SELECT * FROM facts');
    await store.run('CREATE OR REPLACE TEMP TABLE all_jobs AS SELECT job_id FROM facts');
    const series = new Map<string, VacuumSeries[]>();
    for await (const job of streamJobReadings(store, 'all_jobs')) series.set(job.jobId, job.series);
    return {
      facts: new Map(facts.map((row) => [row.job_id, row as unknown as Facts])),
      findings: await store.rows('SELECT job_id, check_id, outcome, message_id FROM findings'),
      series,
      sources: await store.rows('SELECT rows_read, rows_kept, rows_rejected, rows_repeated FROM sources'),
    };
  } finally {
    await store.close();
  }
}

function seriesOf({ series }: Judged, jobId: string, gauge: string): VacuumSeries {
  const found = series.get(jobId)?.find((one) => one.gauge === gauge);
  if (found === undefined) throw new Error(`no ${gauge} on ${jobId}`);
  return found;
}

function finding({ findings }: Judged, jobId: string, checkId: string): unknown[] {
  return findings
    .filter((row) => row.job_id === jobId && row.check_id === checkId)
    .map((row) => [row.outcome, row.message_id]);
}

/** What the log of one gauge alone shows. */
function factsOf(all: Judged, jobId: string, gauge: string): Partial<Facts> {
  return vacuumFacts({ series: [seriesOf(all, jobId, gauge)], marks: [] });
}

/** Least squares over the readings in range, the first 10 s left out [Pa/s]. */
function slopeOf(all: Judged, jobId: string, gauge: string): number {
  const { elapsedS, vacuumPa } = seriesOf(all, jobId, gauge);
  const from = elapsedS.findIndex((atS) => atS >= 10);
  const over = vacuumPa.indexOf(Number.POSITIVE_INFINITY);
  const to = over < 0 ? vacuumPa.length : over;
  return lineFit(elapsedS.subarray(0, to), vacuumPa.subarray(0, to), from)?.slope ?? Number.NaN;
}

describe.skipIf(!here)(`${skipped}a pump on a vessel of 34 L, and known leaks`, () => {
  let judging: Promise<Judged> | undefined;
  const lab = () => {
    judging ??= judged('lab-pump-34l');
    return judging;
  };

  test('goes the whole way', async () => {
    const all = await lab();
    expect([...all.facts.keys()].sort()).toEqual([
      'pump-down',
      'rise-from-0.5-mbar',
      'rise-from-10-mbar',
      'rise-from-100-mbar-a',
      'rise-from-100-mbar-b',
      'rise-from-50-mbar',
    ]);
    for (const row of all.sources) expect([row.rows_rejected, row.rows_repeated]).toEqual([0, 0]);

    // Three gauges a job; the first by name judges, since no record names one.
    for (const [jobId, facts] of all.facts) {
      expect(facts.vacuum_gauge).toBe('gauge-1');
      expect(
        all.series
          .get(jobId)
          ?.map(({ gauge }) => gauge)
          .sort(),
      ).toEqual(['gauge-1', 'gauge-2', 'gauge-3']);
    }

    // Time is the wall clock's: 600 rows over 902 s (README of the logs), where the sample counter ends near 600.
    const down = all.facts.get('pump-down') as Facts;
    const times = all.series.get('pump-down')?.[0]?.elapsedS ?? new Float64Array();
    expect([times.length, times[0], times.at(-1)]).toEqual([600, 0, 902]);

    // 1006 → 0.07 mbar: one pull, down to what was printed, and no isolation in it.
    expect(down).toMatchObject({ pulls: 1, pumped_until: 'log-end' });
    expect(down.isolation_start_s ?? null).toBeNull();
    expect(down.leak_pa_per_s ?? null).toBeNull();
    expect(down.deepest_pa).toBeGreaterThan(5);
    expect(down.deepest_pa).toBeLessThan(9);
    expect(finding(all, 'pump-down', 'no-rise-test')).toEqual([['not-evaluated', 'log-ends']]);

    // The needle valve's known leak: 0.2207 mbar/s on the first gauge, least squares over the wall clock with the first
    // 10 s left out (README of the logs); the sample counter would give 0.295.
    const rise = all.facts.get('rise-from-10-mbar') as Facts;
    expect(rise).toMatchObject({ pulls: 0, isolation_start_s: 0 });
    expect(Math.abs((rise.leak_pa_per_s ?? 0) / 22.07 - 1)).toBeLessThan(0.02);
    expect(rise.leak_low_pa_per_s).toBeLessThanOrEqual(22.07);
    expect(rise.leak_high_pa_per_s).toBeGreaterThanOrEqual(22.07);
    expect(finding(all, 'rise-from-10-mbar', 'rise-over-limit')).toEqual([['fail', 'level-over']]);
    expect(finding(all, 'rise-from-10-mbar', 'hold-short')).toEqual([['not-evaluated', 'no-pull']]);
    expect(finding(all, 'rise-from-10-mbar', 'charge-off-target')).toEqual([['not-evaluated', 'no-record']]);

    // The other two gauges, by the same rule: 0.2147 and 0.2013 mbar/s.
    for (const [gauge, paPerS] of [
      ['gauge-1', 22.07],
      ['gauge-2', 21.47],
      ['gauge-3', 20.13],
    ] as const) {
      expect(Math.abs(slopeOf(all, 'rise-from-10-mbar', gauge) / paPerS - 1)).toBeLessThan(0.005);
    }

    // From 50 mbar: 1.556 mbar/s on the first gauge. The other two are over range when it reads some 463 mbar.
    const from50 = all.facts.get('rise-from-50-mbar') as Facts;
    expect(Math.abs((from50.leak_pa_per_s ?? 0) / 155.6 - 1)).toBeLessThan(0.02);
    expect(from50.leak_low_pa_per_s).toBeLessThanOrEqual(155.6);
    expect(from50.leak_high_pa_per_s).toBeGreaterThanOrEqual(155.6);
    const first = seriesOf(all, 'rise-from-50-mbar', 'gauge-1');
    for (const gauge of ['gauge-2', 'gauge-3']) {
      const { vacuumPa } = seriesOf(all, 'rise-from-50-mbar', gauge);
      const at = vacuumPa.indexOf(Number.POSITIVE_INFINITY);
      expect(at).toBeGreaterThan(0);
      expect(first.vacuumPa[at]).toBeGreaterThan(43_000);
      expect(first.vacuumPa[at]).toBeLessThan(48_000);
    }

    // Every rise begins with the valve closed, and no pump was opened again.
    for (const [jobId, facts] of all.facts) {
      if (jobId === 'pump-down') continue;
      expect([jobId, facts.pulls, facts.isolation_start_s]).toEqual([jobId, 0, 0]);
      expect(facts.rise_pa).toBeGreaterThan(0);
    }
  });

  // 60 to 7.7 Pa over the last ten minutes, falling all the time: no shut system does that.
  test('a pump-down that falls to its end hides no isolation', async () => {
    const all = await lab();
    expect(all.facts.get('pump-down')?.rise_shape).toBe('absent');
  });

  test('known leaks far below the atmosphere are leaks, and nothing else', async () => {
    const all = await lab();
    for (const jobId of ['rise-from-10-mbar', 'rise-from-50-mbar'])
      expect(all.facts.get(jobId)).toMatchObject({ rise_shape: 'leak', rise_model: 'leak', vapour_rise_pa: 0 });
    // These logs begin isolated, so how long the pump was on is not known, and outgassing may be nearly as steady as a leak.
    for (const gauge of ['gauge-2', 'gauge-3']) {
      const facts = factsOf(all, 'rise-from-0.5-mbar', gauge);
      expect(facts.rise_model).toBe('leak');
      expect(['leak', 'undecided']).toContain(facts.rise_shape);
    }
  });

  test('the interval holds the slope of the same gauge, whatever the shape', async () => {
    const all = await lab();
    for (const jobId of ['rise-from-0.5-mbar', 'rise-from-10-mbar'])
      for (const gauge of ['gauge-1', 'gauge-2', 'gauge-3']) {
        const { leak_low_pa_per_s: low, leak_high_pa_per_s: high } = factsOf(all, jobId, gauge);
        expect(low).toBeLessThanOrEqual(slopeOf(all, jobId, gauge));
        expect(high).toBeGreaterThanOrEqual(slopeOf(all, jobId, gauge));
      }
  });

  test('a gauge that is itself not straight leaves the shape open, and is never moisture', async () => {
    const all = await lab();
    // From 10 mbar the second and third gauge swing by 3 % about the line of the same leak, once up and down, by a scale of
    // their own; from 0.5 mbar the first starts at a third of what the others show and overtakes them within 15 s.
    expect(factsOf(all, 'rise-from-10-mbar', 'gauge-2').rise_shape).toBe('undecided');
    expect(factsOf(all, 'rise-from-10-mbar', 'gauge-3').rise_shape).toBe('undecided');
    expect(factsOf(all, 'rise-from-0.5-mbar', 'gauge-1').rise_shape).toBe('undecided');
  });

  test('near the atmosphere a leak bends, since it stops choking, and is still no moisture', async () => {
    const all = await lab();
    // From 300 to 216 Pa/s while the pressure goes from 13 to 84 kPa.
    for (const jobId of ['rise-from-100-mbar-a', 'rise-from-100-mbar-b'])
      expect(['leak', 'undecided']).toContain(all.facts.get(jobId)?.rise_shape);
  });
});

describe.skipIf(!here)(`${skipped}a manifold pumped down, never isolated`, () => {
  test('goes the whole way', async () => {
    const all = await judged('manifold-pump-down');
    const facts = all.facts.get('pump-down') as Facts;
    expect(facts).toMatchObject({ vacuum_readings: 145, pulls: 1, rise_shape: 'absent', pumped_until: 'log-end' });
    expect(facts.isolation_start_s ?? null).toBeNull();
    expect(facts.rise_pa ?? null).toBeNull();
    // Down to 0.010 mbar at 355 s (README of the logs); the lowest median of three in a row is the last but one reading.
    expect(facts.deepest_pa).toBeGreaterThan(0.98);
    expect(facts.deepest_pa).toBeLessThanOrEqual(2);
    // At or below 500 µm (0.6667 mbar) from the row at 128.4 s, the row before being above, to the last at 354.7 s.
    expect(Math.abs((facts.hold_s ?? 0) - 226.3)).toBeLessThan(3);
    expect(finding(all, 'pump-down', 'no-rise-test')).toEqual([['not-evaluated', 'log-ends']]);
    expect(finding(all, 'pump-down', 'rise-over-limit')).toEqual([['not-evaluated', 'no-isolation']]);
    expect(finding(all, 'pump-down', 'target-not-reached')).toEqual([['pass', 'reached']]);
  });
});
