import { createReadStream, createWriteStream, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { type Column, columnsOf, type Table } from '../records/table.ts';
import { formulaPattern } from '../sources/formula-mark.ts';
import { writeArrow } from './write-arrow.ts';
import { identifier, literal } from './sql.ts';
import type { Store } from './store.ts';
import { noteUnfinished, writeWhole } from './whole-file.ts';

export type ExportFormat = 'csv' | 'ndjson' | 'parquet' | 'arrow';

export const exportFormats: readonly ExportFormat[] = ['csv', 'ndjson', 'parquet', 'arrow'];

export interface ExportOptions {
  readonly format: ExportFormat;
  /** A file's path; absent: standard output. */
  readonly out?: string;
  /** The policy whose findings are wanted. */
  readonly policyId?: string;
  /** Replaces a technician's id; names go with it. */
  readonly codes?: boolean;
}

/**
 * Writes a table of the store, sorted by its key: equal content gives equal bytes.
 *
 * Text formats write the word `over` where a pressure lies above the gauge's range; Parquet and Arrow keep +infinity.
 */
export async function exportTable(store: Store, table: Table, options: ExportOptions): Promise<void> {
  const { out } = options;
  if (out !== undefined) return writeWhole(out, (to) => writeTable(store, table, options, to));
  const folder = mkdtempSync(join(tmpdir(), 'dryhold-export-'));
  const written = noteUnfinished(folder);
  try {
    const file = join(folder, 'table');
    await writeTable(store, table, options, file);
    await pipeline(createReadStream(file), process.stdout, { end: false });
  } finally {
    rmSync(folder, { recursive: true, force: true });
    written();
  }
}

async function writeTable(store: Store, table: Table, options: ExportOptions, path: string): Promise<void> {
  const select = exportSelect(table, options);
  if (options.format === 'arrow') return writeArrow(store, select, createWriteStream(path));
  const format = { csv: 'FORMAT csv, HEADER true', ndjson: 'FORMAT json', parquet: 'FORMAT parquet, COMPRESSION zstd' }[
    options.format
  ];
  await store.run(`COPY (${select}) TO ${literal(path)} (${format})`);
}

function exportSelect(table: Table, { format, policyId, codes = false }: ExportOptions): string {
  const textual = format === 'csv' || format === 'ndjson';
  const columns = exportColumns(table, codes);
  const given = (column: Column) => (format === 'csv' ? csvCell(column, codes) : cell(column, textual, codes));
  const list = columns.map((column) => `${given(column)} AS ${identifier(column.name)}`).join(', ');
  const filter = table.name === 'findings' && policyId !== undefined ? `WHERE policy_id = ${literal(policyId)}` : '';
  const order = [...table.key, ...tieBreakers.filter((name) => columns.some((column) => column.name === name))];
  return `SELECT ${list} FROM ${identifier(table.name)} t ${filter}
    ORDER BY ${order.map((name) => `t.${identifier(name)} NULLS FIRST`).join(', ')}`;
}

/** The columns of an exported table, in their order. */
export function exportColumns(table: Table, codes = false): Column[] {
  return columnsOf(table).filter((column) => !codes || !namingColumns.has(column.name));
}

/** The cells of a table `t` as Parquet and Arrow keep them, as a select list. */
export function exportCells(table: Table, codes = false): string {
  return exportColumns(table, codes)
    .map((column) => `${cell(column, false, codes)} AS ${identifier(column.name)}`)
    .join(', ');
}

/** Columns that order rows with the same key: a file may be refused for two reasons at once. */
const tieBreakers = ['detail', 'raw'];

/** Columns that name people, or are free text that may; left out where people go by code. */
const namingColumns: ReadonlySet<string> = new Set(['display_name', 'reviewed_by', 'note', 'reason', 'cause_found']);

/** A cell of a CSV file, which a spreadsheet may open: a text that begins as a formula does has an apostrophe before it. */
function csvCell(column: Column, codes: boolean): string {
  const given = cell(column, true, codes);
  return column.kind === 'text' ? markedText(given) : given;
}

/** The same of a text as SQL. */
export function markedText(sql: string): string {
  return `CASE WHEN regexp_matches(${sql}, ${literal(formulaPattern)}) THEN '''' || ${sql} ELSE ${sql} END`;
}

function cell(column: Column, textual: boolean, codes: boolean): string {
  const name = identifier(column.name);
  if (codes && column.name === 'technician_id')
    return `(SELECT code FROM temp.person_codes c WHERE c.technician_id = t.technician_id)`;
  if (column.over && textual) return `CASE WHEN isinf(${name}) THEN 'over' ELSE ${name}::VARCHAR END`;
  return name;
}
