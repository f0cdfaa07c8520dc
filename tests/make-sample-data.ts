// Makes the samples that are no text: sample-data/bundle-{parquet,arrow} from the CSV one, and the workbook, the columns and
// the packed files that come through maps. Run by hand after a change; it uses the engines' own writers, not the project's.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { DuckDBInstance } from '@duckdb/node-api';
import { Float64, Int64, Table, tableToIPC, TimestampMicrosecond, Utf8, vectorFromArray } from 'apache-arrow';
import { writeXlsx } from 'hucre/xlsx';
import { storedZip } from './stored-zip.ts';

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

/** A file below sample-data. */
function write(path: string, content: Uint8Array): void {
  mkdirSync(join(folder, path, '..'), { recursive: true });
  writeFileSync(join(folder, path), content);
}

// 46087 is the sixth of March 2026; .34375 of a day is a quarter past eight. What lies outside B3:E11 is no row.
const eighth = 46_087.34375;
const later = (seconds: number) => eighth + seconds / 86_400;
const workbook = await writeXlsx({
  // A workbook says when it was last changed: without a fixed moment, its bytes would differ each time.
  properties: { created: new Date(0), modified: new Date(0) },
  sheets: [
    {
      name: 'Visits',
      rows: [
        ['Oak ledger', null, 'kept by hand'],
        ['Site stands at (m)', 1450],
        [],
        ['Ticket', 'Began', 'Opened', 'Worker'],
        ['O-1301', new Date(Date.UTC(2026, 2, 6, 8, 15)), true, 'odd-marble'],
        ['O-1302', new Date(Date.UTC(2026, 6, 6, 13)), false, 'pip-lathe'],
        ['O-1303', 'soon', false, 'pip-lathe'],
      ],
    },
    {
      name: 'Points',
      rows: [
        ['Points of the week', null, null, null, null, 'scribble'],
        [],
        ['x', 'Ticket', 'Day', 'Deep', 'Push', 'out'],
        ['x', null, null, 'mbar', '(bar g)'],
        ['x', 'O-1301', eighth, 'above', 0, 'here'],
        ['x', 'O-1301', later(10), 13.5, -0.5],
        ['x', null, null, null, null, 'no row'],
        ['x', 'O-1301', later(20), 'damp', null],
        ['x', 'O-1301', later(60), 0.7, null],
        ['x', 'O-1301', eighth + 1, null, 30],
        ['x', 'O-1302', eighth + 122, 0.5, null],
        ['x', 'O-1302', eighth + 123, 0.4, null],
      ],
    },
  ],
});
write('oak-ledger/book.xlsx', workbook);

// Whole numbers are 64 bits wide in both; 900 K is no pipe.
const parcel = {
  at: ['10:00:00', '10:00:10', '10:00:20', '10:00:30.5'].map((clock) => `2026-04-14T${clock}Z`),
  deep_hpa: [Number.POSITIVE_INFINITY, 0.5, 0.3, 0.25],
  pipe_k: [291.65, 291.4, 900, null],
  scale_g: [12_345n, 12_344n, 12_343n, -500n],
  push: [0, 118, 118, null],
};
const sevens = [7n, 7n, 7n, 7n];
write(
  'stone-parcel/parcels/second.arrow',
  tableToIPC(
    new Table({
      ticket: vectorFromArray(Array(4).fill('P-1402'), new Utf8()),
      gauge_no: vectorFromArray(sevens, new Int64()),
      at: vectorFromArray(
        parcel.at.map((at) => new Date(at)),
        new TimestampMicrosecond('UTC'),
      ),
      deep_hpa: vectorFromArray(parcel.deep_hpa, new Float64()),
      pipe_k: vectorFromArray(parcel.pipe_k, new Float64()),
      scale_g: vectorFromArray(parcel.scale_g, new Int64()),
      push: vectorFromArray(parcel.push, new Float64()),
    }),
    'file',
  ),
);
await connection.run(`SET TimeZone = 'UTC'`);
await connection.run(
  'CREATE TABLE parcel (ticket VARCHAR, gauge_no BIGINT, "at" TIMESTAMPTZ, deep_hpa DOUBLE, pipe_k DOUBLE, scale_g BIGINT, push DOUBLE)',
);
for (const [row, at] of parcel.at.entries()) {
  const deep = parcel.deep_hpa[row] === Number.POSITIVE_INFINITY ? `'infinity'` : String(parcel.deep_hpa[row]);
  const cells = `'P-1401', 7, '${at}', ${deep}, ${parcel.pipe_k[row]}, ${parcel.scale_g[row]}, ${parcel.push[row]}`;
  await connection.run(`INSERT INTO parcel VALUES (${cells})`);
}
mkdirSync(join(folder, 'stone-parcel/parcels'), { recursive: true });
await connection.run(`COPY parcel TO '${join(folder, 'stone-parcel/parcels/first.parquet')}' (FORMAT parquet)`);

write('packed-meadow/drops/E-1501.csv.gz', gzipSync('s deep\n0 2\n5 0,5\n10 0,0625\n'));
write(
  'packed-meadow/drops/week.zip',
  storedZip([
    { name: 'mon/E-1502.csv', content: 's deep\n0 0,75\n2,5 0,08\n' },
    { name: 'tue/E-1503.csv', content: 's deep\n0 0,06\n30 0.05\n60 0,04\n' },
    { name: 'tue/notes.md', content: 'No log.\n' },
    { name: '.hidden/E-1504.csv', content: 's deep\n0 1\n' },
  ]),
);
write('two-tongues/calls/dusk-1602.csv.gz', gzipSync('tick;deep\n0;800\n1;400\n'));

/** Typed cells have no word for "above the range" but infinity; the wrong row is wrong by its size, not by its text. */
function cellOf(text: string, numeric: boolean): string | number | null {
  if (text === '') return null;
  if (!numeric) return text;
  if (text === 'over') return Number.POSITIVE_INFINITY;
  return text === 'n/a' ? 2e6 : Number(text);
}
