import type { DuckDBConnection } from '@duckdb/node-api';
import type { Table } from '../records/table.ts';
import { curveMatches } from '../records/tables/curve-matches.ts';
import { facts } from '../records/tables/facts.ts';
import { inputTables, outputTables } from '../records/tables.ts';
import { columnDefinitions, identifier, query } from './sql.ts';

/** One step forward: from the version before to `version`. */
export interface Migration {
  readonly version: number;
  readonly statements: () => string[];
}

/** Every step ever published, in order. A published step never changes; a change of the tables is a new step. */
export const migrations: readonly Migration[] = [
  {
    version: 1,
    statements: () => [
      query('schema-1'),
      ...keptTables.map(createTable),
      'ALTER TABLE sources ADD COLUMN map_sha256 VARCHAR',
    ],
  },
  // Facts come from the readings: with more columns they are made anew by the next judging.
  { version: 2, statements: () => ['DROP TABLE facts', createTable(facts)] },
  { version: 3, statements: () => ['DROP TABLE facts', createTable(facts)] },
  {
    version: 4,
    statements: () => [
      ...[
        'pressure_accuracy_ratio DOUBLE',
        'charging_hose_bore_mm DOUBLE',
        'charging_hose_length_m DOUBLE',
        'charging_hose_phase VARCHAR',
        'fixed_test_mode BOOLEAN',
      ].map((column) => `ALTER TABLE jobs ADD COLUMN IF NOT EXISTS ${column}`),
      'DROP TABLE facts',
      createTable(facts),
    ],
  },
  {
    version: 5,
    statements: () => [
      'CREATE TABLE IF NOT EXISTS log_starts (job_id VARCHAR, origin VARCHAR, start_s DOUBLE NOT NULL, PRIMARY KEY (job_id, origin))',
      query('schema-fed-readings'),
      // Parquet files that were read row by row broke off after 2,048 rows: they count as not taken in yet.
      "DELETE FROM sources WHERE file ILIKE '%.parquet' AND rows_read = 2048",
      // How the readings were recorded: made anew by the next judging.
      'DROP TABLE facts',
      createTable(facts),
    ],
  },
  {
    version: 6,
    statements: () => [
      query('schema-curves'),
      // A store of version 0 has it from the first step.
      `DROP TABLE IF EXISTS ${curveMatches.name}`,
      createTable(curveMatches),
      // The curves of all jobs are looked at by the next judging.
      'DROP TABLE facts',
      createTable(facts),
    ],
  },
];

/** The version that this program writes. */
export const newestVersion = migrations[migrations.length - 1].version;

/** The tables that live in the catalogue itself; readings live in segments. */
const keptTables = [...inputTables, ...outputTables].filter((table) => table.name !== 'readings');

/**
 * Takes a store forward to the newest version, in one transaction.
 *
 * @returns the version it has afterwards
 */
export async function migrate(connection: DuckDBConnection, steps: readonly Migration[] = migrations): Promise<number> {
  const found = await storeVersion(connection);
  const missing = steps.filter((step) => step.version > found);
  if (missing.length === 0) return found;
  await connection.run('BEGIN TRANSACTION');
  try {
    for (const step of missing) for (const statement of step.statements()) await connection.run(statement);
    const version = missing[missing.length - 1].version;
    await connection.run('DELETE FROM store_version');
    await connection.run(`INSERT INTO store_version VALUES (${version})`);
    await connection.run('COMMIT');
    return version;
  } catch (error) {
    await connection.run('ROLLBACK');
    throw error;
  }
}

/** The version a store has: 0 where it is new and empty. */
export async function storeVersion(connection: DuckDBConnection): Promise<number> {
  const tables = await connection.runAndReadAll(
    "SELECT count(*)::INTEGER FROM information_schema.tables WHERE table_name = 'store_version'",
  );
  if (tables.value(0, 0) === 0) return 0;
  const version = await connection.runAndReadAll('SELECT max(version)::INTEGER FROM store_version');
  return Number(version.value(0, 0) ?? 0);
}

function createTable(table: Table): string {
  return `CREATE TABLE ${identifier(table.name)} (${columnDefinitions(table)})`;
}
