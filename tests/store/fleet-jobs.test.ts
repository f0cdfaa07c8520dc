import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { checks } from '../../src/checks/checks.ts';
import { type FleetJobs, type Grouping, groupings } from '../../src/fleet/fleet-jobs.ts';
import { mixFactors } from '../../src/fleet/job-mix.ts';
import { simulateFleet } from '../../src/simulate/fleet.ts';
import { writeBundle } from '../../src/simulate/write-bundle.ts';
import { ingest } from '../../src/steps/ingest.ts';
import { judge } from '../../src/steps/judge.ts';
import { readFleetJobs } from '../../src/store/fleet-jobs.ts';
import { Store } from '../../src/store/store.ts';

// Every column against SQL that is written here, straight on the tables findings, jobs, facts and memberships.

const folder = mkdtempSync(join(tmpdir(), 'dryhold-fleet-jobs-'));
const checkIds = checks.map(({ id }) => id);
let store: Store;
let jobs: FleetJobs;
let jobIds: string[];

beforeAll(async () => {
  await writeBundle(simulateFleet({ jobs: 60, seed: 2 }), join(folder, 'bundle'));
  store = await Store.open(join(folder, 'store'), 'write');
  await ingest(store, [join(folder, 'bundle')]);
  await judge(store);
  ({ jobs } = await readFleetJobs(store, 'as-recorded', checkIds));
  jobIds = (await store.rows<{ job_id: string }>('SELECT job_id FROM temp.fleet_jobs ORDER BY rowid')).map(
    ({ job_id }) => job_id,
  );
}, 60_000);

afterAll(async () => {
  await store.close();
  rmSync(folder, { recursive: true });
});

const isSet = (bits: Uint32Array, job: number, check: number): boolean =>
  ((bits[2 * job + (check >> 5)] >> (check & 31)) & 1) === 1;

describe('what the checks found', () => {
  test('stands in the bits of every job and check; what could not be judged has none', async () => {
    const rows = await store.rows<{ job_id: string; check_id: string; outcome: string }>(
      `SELECT job_id, check_id, outcome FROM findings WHERE policy_id = 'as-recorded'`,
    );
    expect(rows).toHaveLength(60 * checkIds.length);
    const counts: Record<string, number> = {};
    const wrong = rows.filter(({ job_id, check_id, outcome }) => {
      counts[outcome] = (counts[outcome] ?? 0) + 1;
      const [job, check] = [jobIds.indexOf(job_id), checkIds.indexOf(check_id)];
      const { judged, found, missing } = jobs.outcomes;
      return (
        isSet(judged, job, check) !== ['pass', 'suspect', 'fail'].includes(outcome) ||
        isSet(found, job, check) !== ['suspect', 'fail'].includes(outcome) ||
        isSet(missing, job, check) !== (outcome === 'missing')
      );
    });
    expect(wrong).toEqual([]);
    expect(Object.keys(counts).toSorted()).toEqual(['fail', 'missing', 'not-evaluated', 'pass', 'suspect']);
  });

  test('has no bit of a check that is none', () => {
    for (const bits of [jobs.outcomes.judged, jobs.outcomes.found, jobs.outcomes.missing]) {
      expect(bits).toHaveLength(2 * jobs.count);
      for (let job = 0; job < jobs.count; job += 1) expect(bits[2 * job + 1]).toBeLessThan(2 ** (checkIds.length - 32));
    }
  });

  test('of some checks has theirs alone, in the order in which they are asked for', async () => {
    const some = ['leaking', 'no-pressure-test', 'hold-short'];
    const { jobs: few } = await readFleetJobs(store, 'as-recorded', some);
    for (const [at, id] of some.entries())
      for (let job = 0; job < jobs.count; job += 1)
        for (const kind of ['judged', 'found', 'missing'] as const)
          expect(isSet(few.outcomes[kind], job, at)).toBe(isSet(jobs.outcomes[kind], job, checkIds.indexOf(id)));
    expect(Math.max(...few.outcomes.missing, ...few.outcomes.judged)).toBeLessThan(2 ** some.length);
  });
});

test('jobs stand in the order of their start, by the day on the clock of the shop', async () => {
  const rows = await store.rows<{ job_id: string; day: number }>(
    `SELECT job_id, datediff('day', DATE '1970-01-01', started_at[1:10]::DATE) AS day FROM jobs ORDER BY started_at, job_id`,
  );
  expect(jobIds).toEqual(rows.map(({ job_id }) => job_id));
  expect([...jobs.days]).toEqual(rows.map(({ day }) => day));
});

test('by whom and with what each job was done', async () => {
  const columns: Record<Grouping, string> = {
    technician: 'technician_id',
    crew: 'crew_id',
    pump: 'pump_id',
    'hose-set': 'hose_set_id',
    gauge: 'gauge_id',
    scale: 'scale_id',
  };
  for (const grouping of groupings) {
    const { ids, of } = jobs.units[grouping];
    // Every job of the simulation names its crew.
    const rows = await store.rows<{ id: string | null }>(
      `SELECT ${columns[grouping]} AS id FROM jobs ORDER BY started_at, job_id`,
    );
    expect(Array.from(of, (unit) => ids[unit] ?? null)).toEqual(rows.map(({ id }) => id));
    for (const unit of of) expect(unit).toBeGreaterThanOrEqual(-1);
    expect(ids).toEqual(ids.toSorted());
    expect(new Set(ids).size).toBe(ids.length);
  }
});

test('numbers of the record and of the facts in their levels', async () => {
  const columns: Record<string, string> = {
    line_length_m: 'j.line_length_m',
    outdoor_k: 'f.run_outdoor_k',
    gauge_accuracy_ratio: 'j.gauge_accuracy_ratio',
    gauge_step_pa: 'j.gauge_step_pa',
    scale_step_kg: 'j.scale_step_kg',
    rise_test_s: 'f.isolation_end_s - f.isolation_start_s',
    smallest_leak_seen_pa_per_s: 'f.smallest_leak_seen_pa_per_s',
    pressure_test_s: 'f.pressure_hold_end_s - f.pressure_hold_start_s',
    smallest_drop_seen_pa: 'f.smallest_drop_seen_pa',
  };
  const numeric = mixFactors.filter(({ bounds }) => bounds !== undefined);
  expect(numeric.map(({ name }) => name)).toEqual(Object.keys(columns));
  for (const { name, bounds } of numeric) {
    const column = columns[name];
    // The number of bounds that are exceeded, and one.
    const rows = await store.rows<{ level: number }>(
      `SELECT CASE WHEN ${column} IS NULL THEN 0 ELSE 1 + ${bounds?.map((bound) => `(${column} > ${bound})::INTEGER`).join(' + ')} END
         AS level
       FROM jobs j LEFT JOIN facts f USING (job_id) ORDER BY j.started_at, j.job_id`,
    );
    expect([name, ...jobs.mix[name as keyof typeof jobs.mix]]).toEqual([name, ...rows.map(({ level }) => level)]);
    expect(new Set(rows.map(({ level }) => level)).size).toBeGreaterThan(1);
  }
});

test('words of the record in levels, the commonest first', async () => {
  for (const name of ['refrigerant', 'system_type', 'work_type'] as const) {
    const rows = await store.rows<{ word: string; jobs: number }>(
      `SELECT ${name} AS word, count(*) AS jobs FROM jobs WHERE ${name} IS NOT NULL GROUP BY 1 ORDER BY 2 DESC, 1`,
    );
    expect(rows.length).toBeGreaterThan(1);
    for (const [at, { jobs: count }] of rows.entries())
      expect([...jobs.mix[name]].filter((level) => level === at + 1)).toHaveLength(count);
  }
});
