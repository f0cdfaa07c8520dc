import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { inputTables, outputTables } from '../../src/records/tables.ts';
import { exportTable } from '../../src/store/export-table.ts';
import { Store } from '../../src/store/store.ts';

/** What the store keeps beside the tables, and what of it must not depend on where a run was cut. */
const books: Readonly<Record<string, string>> = {
  job_revisions: 'FROM job_revisions',
  log_starts: 'FROM log_starts',
  fed_readings: 'FROM fed_readings',
  facts_made: 'FROM facts_made',
  findings_made: 'FROM findings_made',
  policies: 'SELECT policy_id, content FROM policies',
  'maps of sources': 'SELECT file, table_name, map_sha256 FROM sources',
};

/** All that a store holds, as text: the sorted export of every table, and what the store keeps beside them. */
export type Contents = ReadonlyMap<string, string>;

/** Opens a store to look, exports every table, and closes it. */
export async function contentsOf(folder: string): Promise<Contents> {
  const to = mkdtempSync(join(tmpdir(), 'dryhold-contents-'));
  const store = await Store.open(folder, 'read');
  try {
    const contents = new Map<string, string>();
    for (const table of [...inputTables, ...outputTables]) {
      const out = join(to, `${table.name}.csv`);
      await exportTable(store, table, { format: 'csv', out });
      contents.set(table.name, readFileSync(out, 'utf8'));
    }
    for (const [name, select] of Object.entries(books)) {
      const rows = await store.rows(select);
      contents.set(
        `book ${name}`,
        rows
          .map((row) => JSON.stringify(row))
          .sort()
          .join('\n'),
      );
    }
    return contents;
  } finally {
    await store.close();
    rmSync(to, { recursive: true, force: true });
  }
}

/** Opens a store to look and reads every table to its end. */
export async function lookInto(folder: string): Promise<void> {
  const store = await Store.open(folder, 'read');
  try {
    for (const { name } of [...inputTables, ...outputTables]) await store.rows(`SELECT max(t) FROM ${name} t`);
  } finally {
    await store.close();
  }
}

/** What differs between two stores, each as the table with its first differing row; nothing where they are equal to the byte. */
export function differencesOf(found: Contents, wanted: Contents): string[] {
  return [...new Set([...found.keys(), ...wanted.keys()])].flatMap((name) => {
    const [is, should] = [found.get(name), wanted.get(name)];
    if (is === should) return [];
    const [rows, wantedRows] = [is?.split('\n') ?? [], should?.split('\n') ?? []];
    const at = rows.findIndex((row, index) => row !== wantedRows[index]);
    const row = at < 0 ? rows.length : at;
    return [
      `${name}, row ${row}: ${shown(rows[row])}, not ${shown(wantedRows[row])} (${rows.length} rows, not ${wantedRows.length})`,
    ];
  });
}

/** What lies in a store's folder that no store needs once it was closed in order. */
export async function leftoversOf(folder: string): Promise<string[]> {
  const store = await Store.open(folder, 'read');
  try {
    const known = (await store.rows<{ file: string }>('SELECT file FROM segments')).map(({ file }) => file);
    const segments = readdirSync(store.segmentsFolder);
    return [
      ...segments.filter((file) => !known.includes(file)).map((file) => join('readings', file)),
      ...known.filter((file) => !existsSync(join(store.segmentsFolder, file))).map((file) => `${file} is missing`),
      ...readdirSync(folder).filter((name) => name !== 'catalogue.duckdb' && name !== 'readings'),
    ];
  } finally {
    await store.close();
  }
}

function shown(row: string | undefined): string {
  return row === undefined ? 'nothing' : row.length > 200 ? `${row.slice(0, 200)}…` : row;
}
