// Makes the Parquet and Arrow samples anew from the CSV one: sample-data/bundle-{parquet,arrow}. Run by hand after a
// change of sample-data/bundle-csv; it uses the engines' own writers, not the project's.
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { DuckDBInstance } from '@duckdb/node-api';
import { Float64, tableToIPC, Table, Utf8, vectorFromArray } from 'apache-arrow';

const folder = fileURLToPath(new URL('../sample-data/', import.meta.url));
const connection = await (await DuckDBInstance.create()).connect();

for (const table of ['jobs', 'people', 'readings']) {
  const [names = [], ...rows] = readFileSync(join(folder, 'bundle-csv', `${table}.csv`), 'utf8')
    .trimEnd()
    .split('\n')
    .map((line) => line.split(','));
  const numeric = names.map((_, place) => rows.some((row) => row[place] !== '' && !Number.isNaN(Number(row[place]))));
  const columns = names.map((_, place) => rows.map((row) => cellOf(row[place] ?? '', numeric[place] === true)));
  writeFileSync(
    join(folder, 'bundle-arrow', `${table}.arrow`),
    tableToIPC(
      new Table(
        Object.fromEntries(
          names.map((name, place) => [
            name,
            vectorFromArray(columns[place] ?? [], numeric[place] ? new Float64() : new Utf8()),
          ]),
        ),
      ),
      'file',
    ),
  );
  const types = names.map((name, place) => `${name} ${numeric[place] ? 'DOUBLE' : 'VARCHAR'}`);
  await connection.run(`CREATE TABLE ${table} (${types.join(', ')})`);
  for (const place of rows.keys()) {
    const values = columns.map((column) => {
      const value = column[place];
      if (value === Number.POSITIVE_INFINITY) return `'infinity'::DOUBLE`;
      return value === null ? 'NULL' : typeof value === 'number' ? String(value) : `'${String(value)}'`;
    });
    await connection.run(`INSERT INTO ${table} VALUES (${values.join(', ')})`);
  }
  await connection.run(`COPY ${table} TO '${join(folder, 'bundle-parquet', `${table}.parquet`)}' (FORMAT parquet)`);
}

/** Typed cells have no word for "above the range" but infinity; the wrong row is wrong by its size, not by its text. */
function cellOf(text: string, numeric: boolean): string | number | null {
  if (text === '') return null;
  if (!numeric) return text;
  if (text === 'over') return Number.POSITIVE_INFINITY;
  return text === 'n/a' ? 2e6 : Number(text);
}
