import { resolve } from 'node:path';
import { DryholdError } from '../errors.ts';
import { rowParser } from '../records/row.ts';
import { columnsOf, type Table } from '../records/table.ts';
import { readings } from '../records/tables/readings.ts';
import { tableNamed } from '../records/tables.ts';
import { csv, csvDelimiter } from '../sources/csv.ts';
import { mapRows } from '../sources/map-rows.ts';
import { ndjson } from '../sources/ndjson.ts';
import type { SourceRow, SourceRows } from '../sources/source-file.ts';
import type { DeliveredFile } from '../store/delivered-file.ts';
import type { Delivery } from '../store/delivery.ts';
import { arrowRows, parquetColumns, parquetRows } from '../store/engine-rows.ts';
import { checkedReadings, csvRelation, hasPlainTypes, readingColumnsOf } from '../store/reading-relation.ts';
import { literal } from '../store/sql.ts';
import type { RowStage } from '../store/stage-rows.ts';
import type { FileDigest } from './file-digest.ts';
import type { InputFile } from './find-inputs.ts';
import type { LoadedMap } from './loaded-map.ts';

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
 * @throws DryholdError `file-unreadable`, with nothing of the file left staged; `map-invalid`
 */
export async function stageFile(
  delivery: Delivery,
  file: InputFile,
  digest: FileDigest,
  map: LoadedMap | undefined,
): Promise<StagedFile> {
  const before = delivery.files.length;
  const named = { ...file, path: resolve(file.path) };
  try {
    return map === undefined
      ? await stageTable(delivery, named, digest)
      : await stageMapped(delivery, named, digest.sha256, map);
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
  const select = table === readings ? wholeFile(file, digest, source.columns, types) : undefined;
  if (select === undefined) {
    await stageRows(delivery, added, table, source);
    return { unknownColumns };
  }
  await source.close?.();
  const stage = async () => {
    added.file.rowsRead = 0;
    await stageRows(delivery, added, table, await openRows(delivery, file));
  };
  const rows = await delivery.stageReadings(added.number, select, namesOf(source.columns));
  if (rows === undefined) {
    await stage();
    return { unknownColumns };
  }
  added.file.rowsRead = rows;
  return { unknownColumns, again: { number: added.number, stage } };
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
  return checkedReadings(`read_parquet(${literal(file.path)})`, readingColumnsOf(columns), {
    isText,
    oddNumbers: true,
  });
}

function namesOf(columns: readonly string[]): string[] {
  return readingColumnsOf(columns).map((column) => column.name);
}

async function stageMapped(delivery: Delivery, file: InputFile, sha256: string, map: LoadedMap): Promise<StagedFile> {
  const { kind, delimiter, skip_lines: skipLines, header } = map.map.file;
  const reader = kind === 'csv' ? csv : ndjson;
  const source = await reader.rows(file.path, { delimiter, skipLines, header });
  const tables = [...new Set(map.map.rows.map((entry) => entry.table))].map((name) => tableNamed(name) as Table);
  const read = { file: file.name, sha256, mapSha256: map.sha256, mapName: map.map.name };
  const added = tables.map((table) => delivery.addFile({ ...read, table }));
  const parsers = new Map(tables.map((table) => [table.name, rowParser(table)]));
  for await (const mapped of mapRows(map.map, map.path, file.path, source)) {
    const parsed = mapped.rows.map(({ table, raw }) => ({
      table,
      ...(parsers.get(table)?.(raw) ?? { column: '', problem: 'unknown table' }),
    }));
    const wrong = parsed.find((row) => 'problem' in row);
    const problem =
      mapped.problem ?? (wrong !== undefined && 'problem' in wrong ? `${wrong.column}: ${wrong.problem}` : undefined);
    // A row that says nothing to a table is no row of that table; one that is refused is refused for all of them.
    for (const { file: of } of added) {
      if (problem === undefined && !parsed.some((row) => row.table === of.table.name)) continue;
      of.rowsRead += 1;
      if (problem !== undefined) await rejectRow(delivery, of, mapped.source, problem);
    }
    if (problem !== undefined) continue;
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
  const where = { file: file.file, line: row.line, table_name: file.table.name };
  await delivery.reject({ ...where, reason_id: reason, detail, raw: row.raw() });
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
