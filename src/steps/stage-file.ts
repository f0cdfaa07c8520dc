import { resolve } from 'node:path';
import { DryholdError } from '../errors.ts';
import { rowParser } from '../records/row.ts';
import { columnsOf, type Table } from '../records/table.ts';
import { readings } from '../records/tables/readings.ts';
import { csvDelimiter } from '../sources/csv.ts';
import type { SourceRows } from '../sources/source-file.ts';
import type { DeliveredFile } from '../store/delivered-file.ts';
import type { Delivery } from '../store/delivery.ts';
import { arrowRows } from '../store/arrow-rows.ts';
import { parquetColumns, parquetRows } from '../store/engine-rows.ts';
import { checkedReadings, csvRelation, hasPlainTypes, readingColumnsOf } from '../store/reading-relation.ts';
import { parquetFiles } from '../store/sql.ts';
import { type FileDigest, whileUnchanged } from './file-digest.ts';
import type { InputFile } from './find-inputs.ts';
import { hasExportMarks, unmarkedRows } from './own-export.ts';
import { rejectRow } from './reject-row.ts';

/** What came of staging a file. */
export interface StagedFile {
  readonly unknownColumns: string[];
  /** For a file of readings that the engine took whole: how to stage it row by row instead. */
  readonly again?: { number: number; stage: () => Promise<void> };
}

/**
 * Stages one file of a delivery. Readings of a bundle go through the engine as a whole, columns at a time; where it
 * meets a wrong or repeated value, and for every other table, the file is read row by row, and each row is booked.
 *
 * @throws DryholdError `file-unreadable`, with nothing of the file left staged
 */
export async function stageFile(delivery: Delivery, file: InputFile, digest: FileDigest): Promise<StagedFile> {
  const before = delivery.files.length;
  try {
    return await whileUnchanged(file.path, digest, () =>
      stageTable(delivery, { ...file, path: resolve(file.path) }, digest),
    );
  } catch (error) {
    await delivery.dropFilesFrom(before);
    throw error;
  }
}

async function stageTable(delivery: Delivery, file: InputFile, digest: FileDigest): Promise<StagedFile> {
  const table = file.table as Table;
  const types = file.kind.id === 'parquet' ? await parquetColumns(delivery.store, file.path) : undefined;
  const source = await openRows(delivery, file);
  const unknownColumns = checkColumns(file.path, table, source.columns);
  const added = delivery.addFile({ file: file.name, sha256: digest.sha256, mapSha256: '', mapName: '', table });
  const isMarked = file.kind.id === 'csv' && digest.hasApostrophe && (await isMarkedExport(delivery, file, table));
  const select = table === readings && !isMarked ? wholeFile(file, digest, source.columns, types) : undefined;
  if (select === undefined) {
    await stageRows(delivery, added, table, isMarked ? unmarkedRows(source, table) : source);
    return { unknownColumns };
  }
  await source.close?.();
  const stage = () =>
    whileUnchanged(file.path, digest, async () => {
      added.file.rowsRead = 0;
      await stageRows(delivery, added, table, await openRows(delivery, file));
    });
  const rows = await delivery.stageReadings(added.number, select, namesOf(source.columns));
  if (rows === undefined) {
    await stage();
    return { unknownColumns };
  }
  added.file.rowsRead = rows;
  return { unknownColumns, again: { number: added.number, stage } };
}

async function isMarkedExport(delivery: Delivery, file: InputFile, table: Table): Promise<boolean> {
  const source = await openRows(delivery, file);
  try {
    return await hasExportMarks(source, table);
  } finally {
    await source.close?.();
  }
}

/** How the engine takes a file of readings whole, or undefined where only the row-by-row reader does it justice. */
function wholeFile(
  file: InputFile,
  digest: FileDigest,
  columns: readonly string[],
  types: ReadonlyMap<string, string> | undefined,
): string | undefined {
  if (file.kind.id === 'csv' && csvDelimiter(file.path) === ',' && !digest.oddText)
    return checkedReadings(csvRelation(file.path, columns), readingColumnsOf(columns), {
      isText: () => true,
      oddNumbers: digest.oddNumbers,
    });
  if (types === undefined || !hasPlainTypes(types)) return undefined;
  const isText = (name: string) => types.get(name) === 'VARCHAR';
  return checkedReadings(parquetFiles(file.path), readingColumnsOf(columns), {
    isText,
    oddNumbers: true,
  });
}

function namesOf(columns: readonly string[]): string[] {
  return readingColumnsOf(columns).map((column) => column.name);
}

async function stageRows(
  delivery: Delivery,
  added: { number: number; file: DeliveredFile },
  table: Table,
  source: SourceRows,
): Promise<void> {
  const parse = rowParser(table);
  const known = new Set(columnsOf(table).map((column) => column.name));
  for await (const row of source.rows) {
    added.file.rowsRead += 1;
    if (row.cells === undefined || row.problem !== undefined) {
      await rejectRow(delivery, added, row, row.problem ?? 'unreadable row');
      continue;
    }
    const cells = row.cells;
    const raw = Object.fromEntries(
      source.columns.flatMap((name, index) => (known.has(name) ? [[name, cells[index]]] : [])),
    );
    const parsed = parse(raw);
    if ('problem' in parsed) {
      await rejectRow(delivery, added, row, `${parsed.column}: ${parsed.problem}`);
      continue;
    }
    const stage = await delivery.stage(table);
    stage.append(parsed.row, { fileNumber: added.number, row: added.file.rowsRead, line: row.line, raw: row.raw() });
  }
}

async function openRows(delivery: Delivery, file: InputFile): Promise<SourceRows> {
  if (file.kind.rows !== undefined) return file.kind.rows(file.path, {});
  return file.kind.id === 'arrow' ? arrowRows(file.path) : parquetRows(delivery.store, file.path);
}

/** The columns of a file that the table does not have; throws where a required one is missing. A file without any is empty. */
function checkColumns(path: string, table: Table, names: readonly string[]): string[] {
  if (names.length === 0) return [];
  const columns = columnsOf(table);
  const missing = columns
    .filter((column) => column.required && !names.includes(column.name))
    .map((column) => column.name);
  if (missing.length > 0) {
    throw new DryholdError('file-unreadable', {
      path,
      problem: `table ${table.name} needs column ${missing.join(', ')}; the file has ${names.slice(0, 30).join(', ')}`,
    });
  }
  const twice = columns.find(({ name }) => names.indexOf(name) !== names.lastIndexOf(name))?.name;
  if (twice !== undefined)
    throw new DryholdError('file-unreadable', { path, problem: `column "${twice}" stands twice` });
  return [...new Set(names)].filter((name) => !columns.some((column) => column.name === name));
}
