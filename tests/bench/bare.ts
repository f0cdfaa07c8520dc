// What the engine alone takes for the same bytes, without anything of ours: run by the benchmark as a process of its own.
// `bare.ts read FILES DATABASE` makes a table of a CSV or of Parquet files on disk; `bare.ts scan FILES NUMBERS TEXTS` goes over
// columns of Parquet files. Prints the seconds of the query.
import { rmSync } from 'node:fs';
import { type DuckDBConnection, DuckDBInstance } from '@duckdb/node-api';
import { timed } from './timing.ts';

/** @returns what is printed */
export async function runBare([what, files, ...rest]: readonly string[]): Promise<string> {
  return what === 'read' ? read(files, rest[0]) : scan(files, listed(rest[0]), listed(rest[1]));
}

async function read(files: string, database: string): Promise<string> {
  rmSync(database, { force: true });
  const reader = files.endsWith('.csv') ? 'read_csv' : 'read_parquet';
  const timing = await within(database, (connection) =>
    connection.run(`CREATE TABLE readings AS SELECT * FROM ${reader}('${files}')`),
  );
  rmSync(database, { force: true });
  return JSON.stringify(timing);
}

/** Sums: a count the engine would take from the end of the file. */
async function scan(files: string, numbers: readonly string[], texts: readonly string[]): Promise<string> {
  const sums = [...numbers.map((name) => `sum(${name})`), ...texts.map((name) => `sum(strlen(${name}))`)];
  return JSON.stringify(
    await within(':memory:', (connection) =>
      connection.run(`SELECT ${sums.join(', ')} FROM read_parquet('${files}', union_by_name = true)`),
    ),
  );
}

async function within(database: string, work: (connection: DuckDBConnection) => Promise<unknown>) {
  const instance = await DuckDBInstance.create(database);
  const connection = await instance.connect();
  const timing = await timed(() => work(connection));
  connection.closeSync();
  instance.closeSync();
  return timing;
}

function listed(names: string): string[] {
  return names === '' ? [] : names.split(',');
}

if (import.meta.main) console.log(await runBare(process.argv.slice(2)));
