import { readings } from '../records/tables/readings.ts';
import { sameGauge } from './fed-readings.ts';
import { identifier, literal, rowsDigest } from './sql.ts';

/** The columns of a batch of jobs under way, without the key. */
export interface MergeColumns {
  /** Those that stored or new readings have. */
  readonly all: readonly string[];
  /** Those that both may have. */
  readonly shared: readonly string[];
}

const key = readings.key.map((name) => identifier(name)).join(', ');

function sameKey(left: string, right: string): string {
  return `${sameGauge(left, right)} AND ${left}.elapsed_s = ${right}.elapsed_s`;
}

function allEmpty(values: readonly string[], of: string): string {
  return values.map((name) => `${of}.${identifier(name)} IS NULL`).join(' AND ') || 'true';
}

/**
 * A statement that makes the table `to` of the readings in `from`, without the cells in the columns and stretches of
 * `temp.merge_spans`, but with those that a span to be kept covers as well. A row that is left with no value goes; one that
 * had none before, only where no span keeps it.
 */
export function emptied(from: string, to: string, values: readonly string[]): string {
  const columns = values.map((name) => identifier(name));
  const covered = values.map((name) => `list_contains(columns, ${literal(name)}) AS ${identifier(name)}`);
  const gone = columns.map(
    (column) => `bool_or(s.${column} AND NOT kept) AND NOT bool_or(s.${column} AND kept) AS ${column}`,
  );
  const cells = columns.map((column) => `CASE WHEN h.${column} THEN NULL ELSE r.${column} END AS ${column}`);
  const mayGo = `h.id IS NOT NULL AND NOT (h.kept AND ${allEmpty(values, 'r')}) AS may_go`;
  return `CREATE OR REPLACE TEMP TABLE ${to} AS
    WITH spans AS (SELECT ${['job_id, gauge, from_s, to_s, kept', ...covered].join(', ')} FROM temp.merge_spans),
    hit AS (
      SELECT ${['r.rowid AS id', 'bool_or(kept) AS kept', ...gone].join(', ')}
      FROM ${from} r JOIN spans s ON ${sameGauge('r', 's')} AND r.elapsed_s BETWEEN s.from_s AND s.to_s
      GROUP BY r.rowid HAVING NOT bool_and(kept)
    ), left_over AS (
      SELECT ${['r.job_id', 'r.gauge', 'r.elapsed_s', ...cells, mayGo].join(', ')} FROM ${from} r LEFT JOIN hit h ON h.id = r.rowid
    )
    SELECT * EXCLUDE may_go FROM left_over l WHERE NOT may_go OR NOT (${allEmpty(values, 'l')})`;
}

/**
 * Statements that list in `temp.merge_contradicted` the gauges and columns in which new readings contradict those left in
 * a table: a reading of both differs, or where the stretches of both overlap, each has readings at times that the other lacks.
 */
export function contradictions(left: string, shared: readonly string[]): string[] {
  const pairs = shared.map((name) => {
    const column = identifier(name);
    return `n.${column} AS ${identifier(`new ${name}`)}, o.${column} AS ${identifier(`old ${name}`)}`;
  });
  // Only stored readings that hold anything in a column that the new ones of that gauge have can contradict.
  const concerned = shared.map(
    (name) => `(r.${identifier(name)} IS NOT NULL AND list_contains(c.columns, ${literal(name)}))`,
  );
  return [
    `CREATE OR REPLACE TEMP TABLE merge_pairs AS
      WITH concerned AS (SELECT r.* FROM ${left} r
        JOIN (SELECT job_id, gauge, flatten(list(columns)) AS columns FROM temp.delivered_fed GROUP BY job_id, gauge) c
          ON ${sameGauge('r', 'c')} WHERE ${concerned.join(' OR ')})
      SELECT coalesce(n.job_id, o.job_id) AS job_id, coalesce(n.gauge, o.gauge) AS gauge,
        coalesce(n.elapsed_s, o.elapsed_s) AS elapsed_s, n.job_id IS NOT NULL AS in_new, o.job_id IS NOT NULL AS in_old,
        ${pairs.join(', ')}
      FROM temp.merge_new n FULL JOIN concerned o ON ${sameKey('n', 'o')}`,
    'CREATE OR REPLACE TEMP TABLE merge_contradicted (job_id VARCHAR, gauge VARCHAR, name VARCHAR)',
    ...shared.map(contradictedIn),
  ];
}

function contradictedIn(name: string): string {
  const [fresh, old] = [identifier(`new ${name}`), identifier(`old ${name}`)];
  return `INSERT INTO temp.merge_contradicted
    WITH stretch AS (
      SELECT job_id, gauge, bool_or(${fresh} <> ${old}) AS differs,
        min(elapsed_s) FILTER (${fresh} IS NOT NULL) AS new_from_s, max(elapsed_s) FILTER (${fresh} IS NOT NULL) AS new_to_s,
        min(elapsed_s) FILTER (${old} IS NOT NULL) AS old_from_s, max(elapsed_s) FILTER (${old} IS NOT NULL) AS old_to_s
      FROM temp.merge_pairs GROUP BY job_id, gauge
      HAVING count(${fresh}) > 0 AND count(${old}) > 0
    )
    SELECT s.job_id, s.gauge, ${literal(name)} FROM stretch s JOIN temp.merge_pairs p ON ${sameGauge('s', 'p')} GROUP BY s.job_id, s.gauge
    HAVING bool_or(differs)
      OR bool_or(${fresh} IS NOT NULL AND NOT in_old AND elapsed_s BETWEEN old_from_s AND old_to_s)
        AND bool_or(${old} IS NOT NULL AND NOT in_new AND elapsed_s BETWEEN new_from_s AND new_to_s)`;
}

/** A statement that joins the new readings and those left in a table into `temp.merge_joined`, cell by cell, new ones first. */
export function joined(left: string, values: readonly string[]): string {
  const cells = [...readings.key, ...values].map(
    (name) => `coalesce(n.${identifier(name)}, o.${identifier(name)}) AS ${identifier(name)}`,
  );
  return `CREATE OR REPLACE TEMP TABLE merge_joined AS SELECT ${cells.join(', ')}
    FROM temp.merge_new n FULL JOIN ${left} o ON ${sameKey('n', 'o')}`;
}

/** A statement that lists in `temp.merge_same` the jobs of a batch of which two tables hold the very same readings. */
export function sameJobs(left: string, right: string, values: readonly string[]): string {
  const digest = (table: string) => `SELECT job_id, count(*) AS rows,
    ${rowsDigest([key, ...values.map((name) => identifier(name))])} AS digest FROM ${table} GROUP BY job_id`;
  return `CREATE OR REPLACE TEMP TABLE merge_same AS
    SELECT job_id FROM (${digest(left)}) JOIN (${digest(right)}) USING (job_id, rows, digest)`;
}
