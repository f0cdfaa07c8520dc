import { DryholdError } from '../errors.ts';
import { rowParser } from '../records/row.ts';
import type { Table } from '../records/table.ts';
import { readings } from '../records/tables/readings.ts';
import { tableNamed } from '../records/tables.ts';
import { fileKindOfId } from '../sources/file-kinds.ts';
import type { LogStarts } from '../sources/log-clock.ts';
import type { MappedFile } from '../sources/map-cell.ts';
import { judgedRows } from '../sources/judged-rows.ts';
import { isAbsent, type MappedPart, mappedFile, mappedParts } from '../sources/open-mapped.ts';
import type { FileKind, SourceRow, SourceRows } from '../sources/source-file.ts';
import { firstBytes, firstLines, markedEncoding } from '../sources/text-blocks.ts';
import type { DeliveredFile } from '../store/delivered-file.ts';
import type { Delivery } from '../store/delivery.ts';
import { arrowRows } from '../store/arrow-rows.ts';
import { parquetRows } from '../store/engine-rows.ts';
import { mappedRelation } from '../store/mapped-relation.ts';
import type { Store } from '../store/store.ts';
import type { FileDigest } from './file-digest.ts';
import type { InputFile } from './find-inputs.ts';
import type { LoadedMap } from './loaded-map.ts';
import { rejectRow } from './reject-row.ts';
import { stageWhole } from './stage-mapped-whole.ts';

/** Smaller files are read sooner than the engine has begun [bytes]. */
export const wholeFromBytes = 256 * 1024;

/** So many rows of records are remembered; a file of more is made known by itself. */
const mostKeys = 100_000;

/** What a file touches. */
export interface Staged {
  /** By table and key the content of a record's row, or the columns of a job's readings that the file has. */
  readonly keys: Map<string, string | Set<string>>;
  /** Whether the file is made known by itself: what it touches is not known row by row. */
  alone: boolean;
}

/**
 * Stages one mapped file: large tables by the engine where it can take them whole, all else row by row.
 *
 * @param wholeFrom from which size on a file goes to the engine [bytes]
 * @throws DryholdError `file-unreadable`, `map-invalid`
 */
export async function stageMapped(
  delivery: Delivery,
  file: InputFile,
  digest: FileDigest,
  map: LoadedMap,
  starts: LogStarts,
  wholeFrom = wholeFromBytes,
): Promise<Staged> {
  const tables = [...new Set(map.map.rows.map((entry) => entry.table))].map((name) => tableNamed(name) as Table);
  const staged: Staged = { keys: new Map(), alone: false };
  const staging: Staging = { delivery, starts, map, file, digest, wholeFrom, staged, tables: new Map(), row: 0 };
  for (const table of tables) {
    const added = delivery.addFile({
      file: file.name,
      sha256: digest.sha256,
      mapSha256: map.sha256,
      mapName: map.map.name,
      table,
    });
    staging.tables.set(table.name, { table, ...added, parse: rowParser(table) });
  }
  const parts = mappedParts(map.map);
  // Two parts may hold readings of one job: only row by row do they become one.
  const mayBeWhole = parts.filter((part) => feedsReadings(part)).length === 1;
  let absent = 0;
  for (const part of parts) {
    try {
      if (!mayBeWhole || !(await stagePartWhole(staging, part))) await stagePart(staging, part);
    } catch (error) {
      if (!isAbsent(part, error)) throw error;
      absent += 1;
    }
  }
  if (absent === parts.length)
    throw new DryholdError('file-unreadable', { path: file.path, problem: "none of the map's tables is in it" });
  return staged;
}

function feedsReadings({ entries }: MappedPart): boolean {
  return entries.some(({ entry }) => entry.table === readings.name);
}

/**
 * Lets the engine take a large table of a file whole, where it can.
 *
 * @returns whether it did; else nothing of it is staged
 */
async function stagePartWhole(staging: Staging, part: MappedPart): Promise<boolean> {
  const { delivery, map, file, digest, starts, tables } = staging;
  const place = part.entries.findIndex(({ entry }) => entry.table === readings.name && !entry.once);
  const of = tables.get(readings.name);
  if (place < 0 || of === undefined || !isPlain(staging, part)) return false;
  const { entry, index } = part.entries[place];
  const others = part.entries.toSpliced(place, 1);
  if (entry.only !== undefined || !others.every((other) => other.entry.once)) return false;
  const source = await openMapped(delivery.store, 'csv', file.path, part);
  try {
    const opened = await mappedFile(map, 'csv', file.path, part, source, starts);
    const skip = source.linesBefore ?? 0;
    // The engine takes a quote that is open at the end of a line to go on, in lines that it skips too.
    const before = firstLines(file.path).slice(0, skip);
    if (before.length < skip || before.some((line) => line.split('"').length % 2 === 0)) return false;
    const csv = { path: file.path, layout: part.layout, skip, oddNumbers: digest.oddNumbers };
    const relation = mappedRelation(opened, csv, entry, `rows.${index}`);
    if (relation === undefined) return false;
    const once = await onceRows(staging, opened, others, source);
    if (once === undefined) return false;
    const rows = await stageWhole(delivery, of.number, relation, map.map.time_zone ?? 'UTC', starts);
    if (rows === undefined) return false;
    of.file.rowsRead += rows;
    staging.staged.alone = true;
    for (const { table, row, line } of once) {
      const added = tables.get(table);
      if (added !== undefined) added.file.rowsRead += 1;
      await stageRow(staging, table, row, line);
    }
    return true;
  } finally {
    await source.close?.();
  }
}

/** Whether a table may be worth the engine's while, and looks to it as it does to the row-by-row reader. */
function isPlain({ map, file, digest, wholeFrom }: Staging, { layout }: MappedPart): boolean {
  const encoding = layout.encoding ?? markedEncoding(firstBytes(file.path)) ?? 'utf-8';
  const quote = layout.quote ?? '"';
  return (
    digest.bytes >= wholeFrom &&
    mappedKind(map, file) === 'csv' &&
    encoding === 'utf-8' &&
    !digest.oddText &&
    (quote === '"' || quote === '') &&
    layout.untilLine === undefined
  );
}

/** What the first row gives to tables that get one row a file; undefined where something is wrong with it. */
async function onceRows(
  { tables }: Staging,
  opened: MappedFile,
  entries: MappedPart['entries'],
  source: SourceRows,
): Promise<{ table: string; row: Record<string, unknown>; line: SourceRow }[] | undefined> {
  if (entries.length === 0) return [];
  for await (const { rows, refused, source: line } of judgedRows(opened, entries, source, parsersOf(tables)))
    return refused.length === 0 && rows.length === entries.length ? rows.map((each) => ({ ...each, line })) : undefined;
  return undefined;
}

function parsersOf(tables: Staging['tables']): Map<string, ReturnType<typeof rowParser>> {
  return new Map([...tables].map(([name, { parse }]) => [name, parse]));
}

interface Staging {
  readonly delivery: Delivery;
  readonly starts: LogStarts;
  readonly map: LoadedMap;
  readonly file: InputFile;
  readonly digest: FileDigest;
  readonly wholeFrom: number;
  readonly staged: Staged;
  /** How many rows of the file were read. */
  row: number;
  readonly tables: Map<
    string,
    {
      readonly table: Table;
      readonly number: number;
      readonly file: DeliveredFile;
      readonly parse: ReturnType<typeof rowParser>;
    }
  >;
}

async function stagePart(staging: Staging, part: MappedPart): Promise<void> {
  const { delivery, map, file, starts, tables } = staging;
  const kind = mappedKind(map, file);
  const source = await openMapped(delivery.store, kind, file.path, part);
  try {
    const opened = await mappedFile(map, kind, file.path, part, source, starts);
    for await (const { source: from, rows, refused } of judgedRows(opened, part.entries, source, parsersOf(tables))) {
      staging.row += 1;
      for (const name of new Set([...rows, ...refused].map(({ table }) => table))) {
        const of = tables.get(name);
        if (of !== undefined) of.file.rowsRead += 1;
      }
      for (const { table, problem, source: wrong } of refused) {
        const of = tables.get(table);
        if (of !== undefined) await rejectRow(delivery, of, wrong, problem);
      }
      for (const { table, row } of rows) await stageRow(staging, table, row, from);
    }
  } finally {
    await source.close?.();
  }
}

async function stageRow(
  staging: Staging,
  name: string,
  row: Record<string, unknown>,
  source: SourceRow,
): Promise<void> {
  const of = staging.tables.get(name);
  if (of === undefined) return;
  note(staging.staged, of.table, row);
  const stage = await staging.delivery.stage(of.table);
  stage.append(row, { fileNumber: of.number, row: staging.row, line: source.line, raw: source.raw() });
}

/** Remembers what of a row another file could touch. */
function note(staged: Staged, table: Table, row: Record<string, unknown>): void {
  const isReading = table === readings;
  const key = JSON.stringify([table.name, ...(isReading ? ['job_id'] : table.key).map((name) => row[name] ?? null)]);
  const known = staged.keys.get(key);
  if (known === undefined && staged.keys.size >= mostKeys) staged.alone = true;
  else if (!isReading) staged.keys.set(key, JSON.stringify(row));
  else {
    const columns = known instanceof Set ? known : new Set<string>();
    for (const name of Object.keys(row)) if (!table.key.includes(name)) columns.add(name);
    staged.keys.set(key, columns);
  }
}

/** The kind of file that a map reads: what it says, else what the file is called. */
export function mappedKind(map: LoadedMap, file: Pick<InputFile, 'kind'>): FileKind['id'] {
  return map.map.file.kind ?? file.kind.id;
}

/** Opens one table of a mapped file. */
export async function openMapped(
  store: Store,
  kind: FileKind['id'],
  path: string,
  part: MappedPart,
): Promise<SourceRows> {
  const { rows } = fileKindOfId(kind);
  if (rows !== undefined) return rows(path, part.layout);
  return kind === 'arrow' ? arrowRows(path) : parquetRows(store, path);
}
