import { statSync } from 'node:fs';
import { rowParser } from '../records/row.ts';
import type { Table } from '../records/table.ts';
import { readings } from '../records/tables/readings.ts';
import { tableNamed } from '../records/tables.ts';
import { fileKindOfId } from '../sources/file-kinds.ts';
import type { LogStarts } from '../sources/log-clock.ts';
import type { MappedFile } from '../sources/map-cell.ts';
import { mapRows } from '../sources/map-rows.ts';
import { isAbsent, type MappedPart, mappedFile, mappedParts } from '../sources/open-mapped.ts';
import type { FileKind, SourceRow, SourceRows } from '../sources/source-file.ts';
import { firstBytes, markedEncoding } from '../sources/text-blocks.ts';
import type { DeliveredFile } from '../store/delivered-file.ts';
import type { Delivery } from '../store/delivery.ts';
import { arrowRows, parquetRows } from '../store/engine-rows.ts';
import { mappedRelation } from '../store/mapped-relation.ts';
import type { Store } from '../store/store.ts';
import type { FileDigest } from './file-digest.ts';
import type { InputFile } from './find-inputs.ts';
import type { LoadedMap } from './loaded-map.ts';
import { rejectRow } from './reject-row.ts';
import { stageWhole } from './stage-mapped-whole.ts';

/** Smaller files are read sooner than the engine has begun [bytes]. */
const wholeFromBytes = 256 * 1024;

/** What identifies the rows that a file gave: of readings their jobs, of other tables key and content. */
export type StagedKeys = Map<string, string>;

/**
 * Stages one mapped file: large tables by the engine where it can take them whole, all else row by row.
 *
 * @param wholeFrom from which size on a file goes to the engine [bytes]
 * @returns what the file touches, by table and key
 * @throws DryholdError `file-unreadable`, `map-invalid`
 */
export async function stageMapped(
  delivery: Delivery,
  file: InputFile,
  digest: FileDigest,
  map: LoadedMap,
  starts: LogStarts,
  wholeFrom = wholeFromBytes,
): Promise<StagedKeys> {
  const tables = [...new Set(map.map.rows.map((entry) => entry.table))].map((name) => tableNamed(name) as Table);
  const staging: Staging = { delivery, starts, map, file, digest, wholeFrom, keys: new Map(), tables: new Map() };
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
  for (const part of mappedParts(map.map)) {
    try {
      if (!(await stagePartWhole(staging, part))) await stagePart(staging, part);
    } catch (error) {
      if (!isAbsent(part, error)) throw error;
    }
  }
  return staging.keys;
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
    const csv = { path: file.path, layout: part.layout, skip: source.linesBefore ?? 0, oddNumbers: digest.oddNumbers };
    const relation = mappedRelation(opened, csv, entry, `rows.${index}`);
    if (relation === undefined) return false;
    const once = await onceRows(staging, opened, others, source);
    if (once === undefined) return false;
    const jobs = await stageWhole(delivery, of.number, relation, map.map.time_zone ?? 'UTC', starts);
    if (jobs === undefined) return false;
    of.file.rowsRead += jobs.rows;
    for (const job of jobs.names) staging.keys.set(keyOf(readings, { job_id: job }), '');
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
    statSync(file.path).size >= wholeFrom &&
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
  for await (const mapped of mapRows(opened, entries, source)) {
    if (mapped.problem !== undefined) return undefined;
    const parsed = mapped.rows.map(({ table, raw }) => ({ table, parsed: tables.get(table)?.parse(raw) }));
    if (parsed.some((each) => each.parsed === undefined || 'problem' in each.parsed)) return undefined;
    return parsed.flatMap(({ table, parsed: each }) =>
      each !== undefined && 'row' in each ? [{ table, row: each.row, line: mapped.source }] : [],
    );
  }
  return undefined;
}

interface Staging {
  readonly delivery: Delivery;
  readonly starts: LogStarts;
  readonly map: LoadedMap;
  readonly file: InputFile;
  readonly digest: FileDigest;
  readonly wholeFrom: number;
  readonly keys: StagedKeys;
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
    for await (const mapped of mapRows(opened, part.entries, source)) {
      const parsed = mapped.rows.map(({ table, raw }) => ({
        table,
        ...(tables.get(table)?.parse(raw) ?? { column: '', problem: 'unknown table' }),
      }));
      const wrong = parsed.find((row) => 'problem' in row);
      const problem =
        mapped.problem ?? (wrong !== undefined && 'problem' in wrong ? `${wrong.column}: ${wrong.problem}` : undefined);
      // A row that says nothing to a table is no row of that table; one that is refused is refused for all of them.
      const told = new Set(problem === undefined ? parsed.map((row) => row.table) : mapped.tables);
      for (const name of told) {
        const of = tables.get(name)?.file;
        if (of === undefined) continue;
        of.rowsRead += 1;
        if (problem !== undefined) await rejectRow(delivery, of, mapped.source, problem);
      }
      if (problem !== undefined) continue;
      for (const row of parsed) if ('row' in row) await stageRow(staging, row.table, row.row, mapped.source);
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
  staging.keys.set(keyOf(of.table, row), of.table === readings ? '' : JSON.stringify(row));
  const stage = await staging.delivery.stage(of.table);
  stage.append(row, { fileNumber: of.number, line: source.line, raw: source.raw() });
}

/** What of a row another file could touch: of readings the job. */
function keyOf(table: Table, row: Record<string, unknown>): string {
  const key = table === readings ? ['job_id'] : table.key;
  return JSON.stringify([table.name, ...key.map((column) => row[column] ?? null)]);
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
