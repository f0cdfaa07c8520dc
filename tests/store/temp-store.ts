import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { tableNamed } from '../../src/records/tables.ts';
import type { Table } from '../../src/records/table.ts';
import { ingest, type IngestOptions } from '../../src/steps/ingest.ts';
import type { IngestResult } from '../../src/steps/ingest-result.ts';
import { type ExportFormat, exportTable } from '../../src/store/export-table.ts';
import { type PlainRow, Store } from '../../src/store/store.ts';
import { writeFiles } from '../write-files.ts';

export { writeFiles };

/** A folder that is gone when the test is. */
export function tempFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'dryhold-test-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** Opens a store for as long as the work takes. */
export async function inStore<Result>(folder: string, work: (store: Store) => Promise<Result>): Promise<Result> {
  const store = await Store.open(folder, 'write');
  try {
    return await work(store);
  } finally {
    await store.close();
  }
}

/** Takes files into a store as one bundle named `bundle`. */
export function ingestFiles(
  store: Store,
  files: Record<string, string | Buffer>,
  options: IngestOptions = {},
): Promise<IngestResult> {
  return ingest(store, [writeFiles(join(tempFolder(), 'bundle'), files)], options);
}

/** A table of the store as text. */
export async function exported(store: Store, name: string, format: ExportFormat = 'csv'): Promise<string> {
  const out = join(tempFolder(), 'out');
  await exportTable(store, tableNamed(name) as Table, { format, out });
  return readFileSync(out, 'utf8');
}

/** What was refused: line, reason and detail. */
export async function refused(store: Store): Promise<PlainRow[]> {
  return store.rows('SELECT line, reason_id, detail FROM rejects ORDER BY file, line, detail');
}

/** Rows of a result that break `rows_read = rows_kept + rows_rejected + rows_repeated`, or the store's own book. */
export async function unbalanced(store: Store): Promise<PlainRow[]> {
  return store.rows(`SELECT * FROM sources s WHERE rows_read <> rows_kept + rows_rejected + rows_repeated OR rows_kept < 0
    OR rows_rejected <> (SELECT count(*) FROM rejects r WHERE r.file = s.file AND r.table_name = s.table_name AND r.line > 0)`);
}
