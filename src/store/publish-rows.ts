import { columnsOf, type Table } from '../records/table.ts';
import type { DeliveredFile } from './delivered-file.ts';
import { columnList, identifier, literal } from './sql.ts';
import { stagingName } from './stage-rows.ts';
import type { Store } from './store.ts';

/** The tables on whose rows a job's facts rest, beside its readings. */
const factTables = ['jobs', 'line_sets', 'weighings'];

/**
 * Takes the staged rows of a table into the catalogue: new and changed ones replace, identical ones are counted as
 * repeated, and a second row with the same key but other content in one delivery is refused.
 *
 * @returns the jobs whose facts may change
 */
export async function publishRows(store: Store, files: readonly DeliveredFile[], table: Table): Promise<string[]> {
  await rankStagedRows(store, files, table);
  const staged = `temp.${stagingName(table)}`;
  const name = identifier(table.name);
  const same = `EXISTS (SELECT 1 FROM ${name} old WHERE ${sameKey(table, 'old', 's')} AND ${rowOf(table, 'old.')} IS NOT DISTINCT FROM ${rowOf(table, 's.')})`;
  const repeated = await store.rows<{ _file: number; n: number }>(
    `SELECT _file, count(*) AS n FROM (
       SELECT _file FROM (SELECT s.*, ${same} AS _same FROM ${staged} s) GROUP BY _file, _line HAVING ${wholeLineRepeated('_same')}
     ) GROUP BY _file`,
  );
  for (const { _file, n } of repeated) files[_file].rowsRepeated += n;
  await store.run(`DELETE FROM ${staged} s WHERE _nth > 1 OR ${same}`);
  const jobs = await changedJobs(store, table, staged);
  await store.run(`DELETE FROM ${name} old USING ${staged} s WHERE ${sameKey(table, 'old', 's')}`);
  await store.run(`INSERT INTO ${name} BY NAME SELECT ${columnList(table)} FROM ${staged} ORDER BY _file, _line`);
  return jobs;
}

/**
 * The condition, over a line's ranked rows, that the line is repeated because the store has all it says: it has something
 * left to say once what the delivery itself repeats is booked, nothing of it was refused, and what is left is `known`.
 */
export function wholeLineRepeated(known: string): string {
  return `bool_or(_nth = 1) AND bool_and(_nth = 1 OR _as_first) AND bool_and(_nth > 1 OR ${known})`;
}

/**
 * Ranks staged rows with the same key: `_nth` counts them in file order, `_as_first` says whether one has the content of
 * the first. Books the second and later ones as repeated or refused. Few rows share a key, and only those are sorted.
 */
export async function rankStagedRows(store: Store, files: readonly DeliveredFile[], table: Table): Promise<void> {
  const staged = `temp.${stagingName(table)}`;
  const key = table.key.map((column) => identifier(column)).join(', ');
  await store.run(
    `CREATE OR REPLACE TEMP TABLE shared_keys AS SELECT ${key} FROM ${staged} GROUP BY ${key} HAVING count(*) > 1`,
  );
  if ((await store.rows('SELECT 1 FROM temp.shared_keys LIMIT 1')).length === 0) return;
  const window = `(PARTITION BY ${key} ORDER BY _file, _line)`;
  await store.run(`UPDATE ${staged} s SET _nth = r._rank, _as_first = r._same FROM (
      SELECT rowid AS id, row_number() OVER ${window} AS _rank,
        ${rowOf(table)} IS NOT DISTINCT FROM first_value(${rowOf(table)}) OVER ${window} AS _same
      FROM ${staged} s WHERE EXISTS (SELECT 1 FROM temp.shared_keys k WHERE ${sameKey(table, 'k', 's')})
    ) r WHERE s.rowid = r.id AND r._rank > 1`);
  // A source row may have become several rows here; it is booked once, by its line.
  const lines = await store.rows<{ _file: number; refused: number; repeated: number }>(
    `SELECT _file, count(*) FILTER (refused) AS refused, count(*) FILTER (repeated) AS repeated FROM (
       SELECT _file, bool_or(_nth > 1 AND NOT _as_first) AS refused, bool_and(_nth > 1 AND _as_first) AS repeated
       FROM ${staged} GROUP BY _file, _line) GROUP BY _file`,
  );
  for (const { _file, refused, repeated } of lines) {
    files[_file].rowsRejected += refused;
    files[_file].rowsRepeated += repeated;
  }
  const keyText = table.key.map((column) => `coalesce(${identifier(column)}::VARCHAR, '')`).join(` || ' ' || `);
  for (const [number, file] of files.entries()) {
    await store.run(`INSERT INTO rejects SELECT ${literal(file.file)}, _line, ${literal(table.name)}, 'contradicts-earlier-row',
      'same ${table.key.join(', ')} (' || min(${keyText}) || ') as an earlier row, other content', min(_raw)
      FROM ${staged} WHERE _nth > 1 AND NOT _as_first AND _file = ${number} GROUP BY _line ORDER BY _line`);
  }
}

async function changedJobs(store: Store, table: Table, staged: string): Promise<string[]> {
  let statement: string;
  if (factTables.includes(table.name)) {
    statement = `SELECT job_id FROM ${staged} UNION SELECT old.job_id FROM ${identifier(table.name)} old, ${staged} s WHERE ${sameKey(table, 'old', 's')}`;
  } else if (table.name === 'gauges') {
    statement = `SELECT job_id FROM jobs WHERE gauge_id IN (SELECT gauge_id FROM ${staged})`;
  } else return [];
  const rows = await store.rows<{ job_id: string | null }>(statement);
  return rows.flatMap((row) => row.job_id ?? []);
}

/** The condition that two rows are the same by the table's key. */
function sameKey(table: Table, left: string, right: string): string {
  return table.key
    .map((key) => `${left}.${identifier(key)} IS NOT DISTINCT FROM ${right}.${identifier(key)}`)
    .join(' AND ');
}

/** All columns of a row as one value, so that rows compare whole. */
function rowOf(table: Table, of = ''): string {
  return `row(${columnsOf(table)
    .map((column) => `${of}${identifier(column.name)}`)
    .join(', ')})`;
}
