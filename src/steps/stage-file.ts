import { resolve } from 'node:path';
import { DryholdError } from '../errors.ts';
import { rowParser } from '../records/row.ts';
import { columnsOf, type Table } from '../records/table.ts';
import { readings } from '../records/tables/readings.ts';
import { tableNamed } from '../records/tables.ts';
import { fileKinds } from '../sources/file-kinds.ts';
import { mapRows } from '../sources/map-rows.ts';
import type { FileKind, SourceRow, SourceRows } from '../sources/source-file.ts';
import type { DeliveredFile } from '../store/delivered-file.ts';
import type { Delivery } from '../store/delivery.ts';
import { arrowRows, parquetColumns, parquetRows } from '../store/engine-rows.ts';
import { checkedReadings, fileRelation, readingColumnsOf } from '../store/reading-relation.ts';
import type { RowStage } from '../store/stage-rows.ts';
import type { InputFile } from './find-inputs.ts';
import type { LoadedMap } from './loaded-map.ts';

/** The kinds of file that the engine takes whole. */
const engineKinds: ReadonlySet<FileKind['id']> = new Set(['csv', 'parquet']);

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
 * @throws DryholdError `file-unreadable`, `map-invalid`
 */
export async function stageFile(
  delivery: Delivery,
  file: InputFile,
  sha256: string,
  map: LoadedMap | undefined,
): Promise<StagedFile> {
  const path = resolve(file.path);
  if (map !== undefined) return stageMapped(delivery, { ...file, path }, sha256, map);
  const table = file.table as Table;
  if (table === readings && engineKinds.has(file.kind.id)) return stageReadings(delivery, { ...file, path }, sha256);
  const source = await openRows(delivery, { ...file, path });
  const unknownColumns = checkColumns(path, table, source.columns);
  const added = delivery.addFile({ file: file.name, sha256, mapSha256: '', table });
  await stageRows(delivery, added, table, source);
  return { unknownColumns };
}

async function stageReadings(delivery: Delivery, file: InputFile, sha256: string): Promise<StagedFile> {
  const opened =
    file.kind.id === 'parquet'
      ? { columns: await parquetColumns(delivery.store, file.path) }
      : await openRows(delivery, file);
  const unknownColumns = checkColumns(file.path, readings, opened.columns);
  const added = delivery.addFile({ file: file.name, sha256, mapSha256: '', table: readings });
  const { taken } = readingColumnsOf(opened.columns);
  const stage = async () => {
    added.file.rowsRead = 0;
    await stageRows(delivery, added, readings, await openRows(delivery, file));
  };
  const names = taken.map((column) => column.name);
  const select = checkedReadings(file.kind.id, fileRelation(file.kind.id, file.path, opened.columns), taken);
  const rows = await delivery.stageReadings(added.number, select, names).catch(() => undefined);
  if (rows === undefined) {
    await stage();
    return { unknownColumns };
  }
  added.file.rowsRead = rows;
  return { unknownColumns, again: { number: added.number, stage } };
}

async function stageMapped(delivery: Delivery, file: InputFile, sha256: string, map: LoadedMap): Promise<StagedFile> {
  const { kind, delimiter, skip_lines: skipLines, header } = map.map.file;
  const reader = fileKinds.find((candidate) => candidate.id === kind)?.rows;
  if (reader === undefined)
    throw new DryholdError('map-invalid', {
      path: map.path,
      where: 'file.kind',
      problem: `no text reader for "${kind}"`,
    });
  const source = await reader(file.path, { delimiter, skipLines, header });
  const tables = [...new Set(map.map.rows.map((entry) => entry.table))].map((name) => tableNamed(name) as Table);
  const added = tables.map((table) => delivery.addFile({ file: file.name, sha256, mapSha256: map.sha256, table }));
  const parsers = new Map(tables.map((table) => [table.name, rowParser(table)]));
  for await (const mapped of mapRows(map.map, map.path, file.path, source)) {
    for (const { file: of } of added) of.rowsRead += 1;
    const parsed = mapped.rows.map(({ table, raw }) => ({
      table,
      ...(parsers.get(table)?.(raw) ?? { column: '', problem: 'unknown table' }),
    }));
    const wrong = parsed.find((row) => 'problem' in row);
    const problem =
      mapped.problem ?? (wrong !== undefined && 'problem' in wrong ? `${wrong.column}: ${wrong.problem}` : undefined);
    if (problem !== undefined) {
      for (const { file: of } of added) await rejectRow(delivery, of, mapped.source, problem);
      continue;
    }
    for (const row of parsed) {
      if (!('row' in row)) continue;
      const number = added[tables.findIndex((table) => table.name === row.table)].number;
      const stage = await delivery.stage(tableNamed(row.table) as Table);
      stage.append(row.row, { fileNumber: number, line: mapped.source.line, raw: mapped.source.raw() });
    }
  }
  return { unknownColumns: [] };
}

async function stageRows(
  delivery: Delivery,
  added: { number: number; file: DeliveredFile },
  table: Table,
  source: SourceRows,
): Promise<void> {
  const parse = rowParser(table);
  const known = new Set(columnsOf(table).map((column) => column.name));
  let stage: RowStage | undefined;
  for await (const row of source.rows) {
    added.file.rowsRead += 1;
    if (row.cells === undefined || row.problem !== undefined) {
      await rejectRow(delivery, added.file, row, row.problem ?? 'unreadable row');
      continue;
    }
    const cells = row.cells;
    const raw = Object.fromEntries(
      source.columns.flatMap((name, index) => (known.has(name) ? [[name, cells[index]]] : [])),
    );
    const parsed = parse(raw);
    if ('problem' in parsed) {
      await rejectRow(delivery, added.file, row, `${parsed.column}: ${parsed.problem}`);
      continue;
    }
    stage ??= await delivery.stage(table);
    stage.append(parsed.row, { fileNumber: added.number, line: row.line, raw: row.raw() });
  }
}

async function rejectRow(delivery: Delivery, file: DeliveredFile, row: SourceRow, detail: string): Promise<void> {
  file.rowsRejected += 1;
  const reason = row.problem === undefined ? 'wrong-value' : 'wrong-shape';
  await delivery.reject({
    file: file.file,
    line: row.line,
    table_name: file.table.name,
    reason_id: reason,
    detail,
    raw: row.raw(),
  });
}

async function openRows(delivery: Delivery, file: InputFile): Promise<SourceRows> {
  if (file.kind.rows !== undefined) return file.kind.rows(file.path, {});
  return file.kind.id === 'arrow' ? arrowRows(file.path) : parquetRows(delivery.store, file.path);
}

/** The columns of a file that the table does not have; throws where a required one is missing. */
function checkColumns(path: string, table: Table, names: readonly string[]): string[] {
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
  const twice = names.find((name, index) => names.indexOf(name) !== index);
  if (twice !== undefined)
    throw new DryholdError('file-unreadable', { path, problem: `column "${twice}" stands twice` });
  return names.filter((name) => !columns.some((column) => column.name === name));
}
