import { columnsOf, type Table } from '../records/table.ts';
import { type DeliveredFile, filesRelation } from './delivered-file.ts';
import { columnList, identifier, literal } from './sql.ts';
import { stagingName } from './stage-rows.ts';
import type { Store } from './store.ts';

/** The tables on whose rows a job's facts rest, beside its readings. */
const factTables = ['jobs', 'line_sets', 'weighings'];

/**
 * Takes the staged rows of a table into the catalogue. A row whose key is there already is counted as repeated where it
 * says nothing new; else its cells replace, and those it leaves empty keep what is there. A second row with the same key
 * but other content in one delivery is refused.
 *
 * @returns the jobs whose facts may change
 */
export async function publishRows(store: Store, files: readonly DeliveredFile[], table: Table): Promise<string[]> {
  await rankStagedRows(store, files, table);
  await rejectContradicting(store, files, table);
  const staged = `temp.${stagingName(table)}`;
  const name = identifier(table.name);
  const columns = columnsOf(table).map((column) => column.name);
  await store.run(
    `UPDATE ${staged} s SET _known = true FROM ${name} old WHERE ${sameKey(table, 'old', 's')} AND ${saysNothingNew(columns, 's', 'old')}`,
  );
  await bookRepeatedLines(store, files, table);
  await store.run(
    `UPDATE ${staged} s SET ${coalesced(columns, 'j')} FROM (${joinedRows(table)} HAVING count(*) > 1) j
     WHERE _nth = 1 AND ${sameKey(table, 'j', 's')}`,
  );
  await store.run(`DELETE FROM ${staged} WHERE _nth <> 1`);
  await store.run(
    `DELETE FROM ${staged} s USING ${name} old WHERE ${sameKey(table, 'old', 's')} AND ${saysNothingNew(columns, 's', 'old')}`,
  );
  await store.run(
    `UPDATE ${staged} s SET ${coalesced(columns, 'old')} FROM ${name} old WHERE ${sameKey(table, 'old', 's')}`,
  );
  const jobs = await changedJobs(store, table, staged);
  await store.run(`DELETE FROM ${name} old USING ${staged} s WHERE ${sameKey(table, 'old', 's')}`);
  await store.run(`INSERT INTO ${name} BY NAME SELECT ${columnList(table)} FROM ${staged} ORDER BY _file, _row`);
  return jobs;
}

/** Assignments that fill a staged row's empty cells from another relation. */
function coalesced(columns: readonly string[], from: string): string {
  return columns
    .map(identifier)
    .map((column) => `${column} = coalesce(s.${column}, ${from}.${column})`)
    .join(', ');
}

/** A select of the ranked rows that count, those that complement each other as one. */
export function joinedRows(table: Table): string {
  const key = table.key.map(identifier);
  const values = columnsOf(table)
    .filter(({ name }) => !table.key.includes(name))
    .map(({ name }) => `any_value(${identifier(name)}) AS ${identifier(name)}`);
  return `SELECT ${[...key, ...values].join(', ')} FROM temp.${stagingName(table)} WHERE _nth <= 1 GROUP BY ${key.join(', ')}`;
}

/** The condition that every cell of a row is empty or equal to that of another one. */
export function saysNothingNew(columns: readonly string[], row: string, other: string): string {
  return columns
    .map(
      (name) =>
        `(${row}.${identifier(name)} IS NULL OR ${row}.${identifier(name)} IS NOT DISTINCT FROM ${other}.${identifier(name)})`,
    )
    .join(' AND ');
}

/**
 * Books the lines that are repeated because the store has all they say (their rows are `_known`): a line has something
 * left to say once what the delivery itself repeats is booked, nothing of it was refused, and what is left is known.
 */
export async function bookRepeatedLines(store: Store, files: readonly DeliveredFile[], table: Table): Promise<void> {
  const repeated = await store.rows<{ _file: number; n: number }>(
    `SELECT _file, count(*) AS n FROM (
       SELECT _file FROM temp.${stagingName(table)} GROUP BY _file, _row
       HAVING bool_or(_nth <= 1) AND bool_and(_nth <= 1 OR _as_first) AND bool_and(_nth > 1 OR _known)
     ) GROUP BY _file`,
  );
  for (const { _file, n } of repeated) files[_file].rowsRepeated += n;
}

/**
 * Ranks staged rows with the same key: `_nth` counts them in file order, `_as_first` says whether one has the content of
 * the first. Rows of different files, or of a mapped one, that only complement each other join the first: their `_nth` is 0.
 * Counts the second and later ones as repeated or refused. Few rows share a key, and only those are sorted.
 */
export async function rankStagedRows(store: Store, files: readonly DeliveredFile[], table: Table): Promise<void> {
  const staged = `temp.${stagingName(table)}`;
  const key = table.key.map((column) => identifier(column)).join(', ');
  await store.run(
    `CREATE OR REPLACE TEMP TABLE shared_keys AS SELECT ${key} FROM ${staged} GROUP BY ${key} HAVING count(*) > 1`,
  );
  if ((await store.rows('SELECT 1 FROM temp.shared_keys LIMIT 1')).length === 0) return;
  const window = `(PARTITION BY ${key} ORDER BY _file, _row)`;
  const whole = `(PARTITION BY ${key})`;
  // A recorder may write each channel on a line of its own; in a bundle's file, which is our own format, a row is whole.
  const isMapped = files.every(({ mapName }) => mapName !== '');
  const mayJoin = isMapped ? 'true' : `count(*) OVER ${whole} = count(DISTINCT _file) OVER ${whole}`;
  const complement = columnsOf(table)
    .map(({ name }) => identifier(name))
    .map((column) => `min(${column}) OVER ${whole} IS NOT DISTINCT FROM max(${column}) OVER ${whole}`);
  await store.run(`UPDATE ${staged} s SET _nth = CASE WHEN r._joins AND NOT r._same THEN 0 ELSE r._rank END, _as_first = r._same FROM (
      SELECT rowid AS id, row_number() OVER ${window} AS _rank,
        ${rowOf(table)} IS NOT DISTINCT FROM first_value(${rowOf(table)}) OVER ${window} AS _same,
        ${mayJoin} AND ${complement.join(' AND ')} AS _joins
      FROM ${staged} s WHERE EXISTS (SELECT 1 FROM temp.shared_keys k WHERE ${sameKey(table, 'k', 's')})
    ) r WHERE s.rowid = r.id AND r._rank > 1`);
  // A source row may have become several rows here; it is booked once, by its line.
  const lines = await store.rows<{ _file: number; refused: number; repeated: number }>(
    `SELECT _file, count(*) FILTER (refused) AS refused, count(*) FILTER (repeated) AS repeated FROM (
       SELECT _file, bool_or(_nth > 1 AND NOT _as_first) AS refused, bool_and(_nth > 1 AND _as_first) AS repeated
       FROM ${staged} GROUP BY _file, _row) GROUP BY _file`,
  );
  for (const { _file, refused, repeated } of lines) {
    files[_file].rowsRejected += refused;
    files[_file].rowsRepeated += repeated;
  }
}

/** Writes the rows that were ranked as contradicting an earlier one of their delivery into the book of what was refused. */
export async function rejectContradicting(store: Store, files: readonly DeliveredFile[], table: Table): Promise<void> {
  const staged = `FROM temp.${stagingName(table)}`;
  const refused = 'WHERE _nth > 1 AND NOT _as_first';
  if ((await store.rows(`SELECT 1 ${staged} ${refused} LIMIT 1`)).length === 0) return;
  const keyText = table.key.map((column) => `coalesce(${identifier(column)}::VARCHAR, '')`).join(` || ' ' || `);
  await store.run(`INSERT INTO rejects SELECT f.file, min(_line), ${literal(table.name)}, 'contradicts-earlier-row',
      'same ${table.key.join(', ')} (' || min(${keyText}) || ') as an earlier row, other content', min(_raw)
      ${staged} JOIN ${filesRelation(files)} USING (_file) ${refused} GROUP BY f.file, _file, _row ORDER BY _file, _row`);
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
