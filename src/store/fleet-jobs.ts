import type { DuckDBDataChunk } from '@duckdb/node-api';
import { type FleetJobs, type Grouping, groupings, type Units } from '../fleet/fleet-jobs.ts';
import { type MixFactorName, mixFactors, mixLevel } from '../fleet/job-mix.ts';
import { placeAmong } from './place-among.ts';
import { identifier, literal, query } from './sql.ts';
import type { Store } from './store.ts';

/** Column of the jobs' records that names the unit; that of the crew is worked out. */
const unitColumns: Readonly<Record<Exclude<Grouping, 'crew'>, string>> = {
  technician: 'j.technician_id',
  pump: 'j.pump_id',
  'hose-set': 'j.hose_set_id',
  gauge: 'j.gauge_id',
  scale: 'j.scale_id',
};

/** What each factor of the mix is; the word ones are ids of the job's record. */
const mixColumns: Readonly<Record<MixFactorName, string>> = {
  refrigerant: 'j.refrigerant',
  system_type: 'j.system_type',
  work_type: 'j.work_type',
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

/** Words of a factor that are told apart, the commonest; all others are one level. */
const mostWords = 24;

/** A fleet's jobs, and how many could not be taken in. */
export interface FleetJobsRead {
  readonly jobs: FleetJobs;
  /** Judged, but without a record that says when. */
  readonly undated: number;
}

/**
 * All judged jobs of a store that have a record, in the order of time, as columns. Leaves the temporary table `fleet_jobs`, in which
 * the job of each place is the one of that `rowid`.
 *
 * @param checkIds whose findings are read, up to 63
 */
export async function readFleetJobs(
  store: Store,
  policyId: string,
  checkIds: readonly string[],
): Promise<FleetJobsRead> {
  await store.run(query('job-crews'));
  await store.run(`CREATE OR REPLACE TEMP TABLE fleet_outcomes AS ${outcomeBits(policyId, checkIds)}`);
  const [{ undated }] = await store.rows<{ undated: number }>(
    `SELECT count(*) AS undated FROM temp.fleet_outcomes o LEFT JOIN jobs j USING (job_id) WHERE j.job_id IS NULL`,
  );
  const [{ count }] = await store.rows<{ count: number }>(
    'SELECT count(*) AS count FROM temp.fleet_outcomes SEMI JOIN jobs USING (job_id)',
  );
  const ids = Object.fromEntries(
    await Promise.all(groupings.map(async (grouping) => [grouping, await unitIds(store, grouping)] as const)),
  ) as Record<Grouping, string[]>;
  const words = Object.fromEntries(
    await Promise.all(
      mixFactors
        .filter(({ bounds }) => bounds === undefined)
        .map(async ({ name }) => [name, await commonWords(store, mixColumns[name as MixFactorName])] as const),
    ),
  );
  await store.run(`CREATE OR REPLACE TEMP TABLE fleet_jobs AS ${selectJobs(ids, words)}`);
  const columns = emptyColumns(count, ids);
  let filled = 0;
  const result = await store.connection.stream('SELECT * EXCLUDE (job_id) FROM temp.fleet_jobs ORDER BY rowid');
  for (let chunk = await result.fetchChunk(); chunk !== null && chunk.rowCount > 0; chunk = await result.fetchChunk()) {
    take(columns, chunk, filled);
    filled += chunk.rowCount;
  }
  return { undated, jobs: fleetJobs(columns, count, ids, checkIds) };
}

/**
 * Two bit planes of a job's findings: found 01, pass 10, not evaluated 11, missing 00. Functions of one column are worked out once for
 * each word of it, so that this takes half of what a case for each row takes.
 */
function outcomeBits(policyId: string, checkIds: readonly string[]): string {
  return `SELECT job_id, coalesce(bit_or((code & 1)::BIGINT << bit), 0) AS low, coalesce(bit_or((code >> 1)::BIGINT << bit), 0) AS high
    FROM (SELECT job_id, list_position([${checkIds.map(literal).join(', ')}], check_id) - 1 AS bit,
        list_position(['suspect', 'pass', 'not-evaluated'], replace(outcome, 'fail', 'suspect')) AS code
      FROM findings WHERE policy_id = ${literal(policyId)})
    GROUP BY job_id`;
}

function columnOf(grouping: Grouping): string {
  return grouping === 'crew' ? 'c.crew_id' : unitColumns[grouping];
}

async function unitIds(store: Store, grouping: Grouping): Promise<string[]> {
  const column = columnOf(grouping);
  const from = grouping === 'crew' ? 'temp.job_crews c' : 'jobs j';
  const rows = await store.rows<{ id: string }>(
    `SELECT DISTINCT ${column} AS id FROM ${from} WHERE ${column} IS NOT NULL ORDER BY 1`,
  );
  return rows.map(({ id }) => id);
}

async function commonWords(store: Store, column: string): Promise<string[]> {
  const rows = await store.rows<{ word: string }>(
    `SELECT ${column} AS word FROM jobs j WHERE ${column} IS NOT NULL GROUP BY 1 ORDER BY count(*) DESC, 1 LIMIT ${mostWords}`,
  );
  return rows.map(({ word }) => word);
}

function selectJobs(ids: Readonly<Record<Grouping, string[]>>, words: Readonly<Record<string, string[]>>): string {
  const units = groupings.map(
    (grouping) => `(${placeAmong(columnOf(grouping), ids[grouping])} - 1)::INTEGER AS ${identifier(grouping)}`,
  );
  const mix = mixFactors.map(({ name, bounds }) => {
    const column = mixColumns[name as MixFactorName];
    if (bounds !== undefined) return `coalesce(${column}, 'nan'::DOUBLE)::DOUBLE AS ${identifier(name)}`;
    const known = words[name];
    const other = `CASE WHEN ${column} IS NULL THEN 0 ELSE ${known.length + 1} END`;
    const place = placeAmong(column, known);
    return `CASE WHEN ${place} = 0 THEN ${other} ELSE ${place} END::DOUBLE AS ${identifier(name)}`;
  });
  return `SELECT j.job_id, datediff('day', DATE '1970-01-01', left(j.started_at, 10)::DATE)::INTEGER AS day, o.low, o.high,
      ${[...units, ...mix].join(',\n      ')}
    FROM temp.fleet_outcomes o JOIN jobs j USING (job_id) LEFT JOIN temp.job_crews c USING (job_id) LEFT JOIN facts f USING (job_id)
    ORDER BY j.started_at, j.job_id`;
}

interface FleetColumns {
  readonly days: Int32Array;
  readonly low: BigInt64Array;
  readonly high: BigInt64Array;
  readonly units: readonly Int32Array[];
  readonly mix: readonly Uint8Array[];
}

function emptyColumns(count: number, ids: Readonly<Record<Grouping, string[]>>): FleetColumns {
  return {
    days: new Int32Array(count),
    low: new BigInt64Array(count),
    high: new BigInt64Array(count),
    units: Object.keys(ids).map(() => new Int32Array(count)),
    mix: mixFactors.map(() => new Uint8Array(count)),
  };
}

function take({ days, low, high, units, mix }: FleetColumns, chunk: DuckDBDataChunk, at: number): void {
  const values = <Values>(column: number): Values =>
    (chunk.getColumnVector(column) as unknown as { items: Values }).items;
  const { rowCount } = chunk;
  days.set(values<Int32Array>(0), at);
  low.set(values<BigInt64Array>(1), at);
  high.set(values<BigInt64Array>(2), at);
  for (const [index, column] of units.entries()) column.set(values<Int32Array>(3 + index), at);
  for (const [index, column] of mix.entries()) {
    const { bounds } = mixFactors[index];
    const read = values<Float64Array>(3 + units.length + index);
    for (let row = 0; row < rowCount; row += 1)
      column[at + row] = bounds === undefined ? read[row] : mixLevel(read[row], bounds);
  }
}

function fleetJobs(
  { days, low, high, units, mix }: FleetColumns,
  count: number,
  ids: Readonly<Record<Grouping, string[]>>,
  checkIds: readonly string[],
): FleetJobs {
  // Each BIGINT as two numbers of 32 bits, the lower first.
  const [lower, higher] = [new Uint32Array(low.buffer), new Uint32Array(high.buffer)];
  const known = (1n << BigInt(checkIds.length)) - 1n;
  const all = [Number(known & 0xffffffffn), Number(known >> 32n)];
  return {
    count,
    days,
    units: Object.fromEntries(
      groupings.map((grouping, at): [Grouping, Units] => [grouping, { ids: ids[grouping], of: units[at] }]),
    ) as Record<Grouping, Units>,
    mix: Object.fromEntries(mixFactors.map(({ name }, at) => [name, mix[at]])) as Record<MixFactorName, Uint8Array>,
    outcomes: {
      checkIds,
      found: lower.map((bits, at) => bits & ~higher[at]),
      judged: lower.map((bits, at) => bits ^ higher[at]),
      missing: lower.map((bits, at) => all[at & 1] & ~(bits | higher[at])),
    },
  };
}
