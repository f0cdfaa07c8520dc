import { rowParser } from '../records/row.ts';
import type { Table } from '../records/table.ts';
import { tableNamed } from '../records/tables.ts';
import { fileKindOfId } from '../sources/file-kinds.ts';
import type { LogStarts } from '../sources/log-clock.ts';
import { mapRows } from '../sources/map-rows.ts';
import { type MappedPart, mappedFile, mappedParts } from '../sources/open-mapped.ts';
import type { FileKind, SourceRow, SourceRows } from '../sources/source-file.ts';
import type { DeliveredFile } from '../store/delivered-file.ts';
import type { Delivery } from '../store/delivery.ts';
import { arrowRows, parquetRows } from '../store/engine-rows.ts';
import type { Store } from '../store/store.ts';
import type { FileDigest } from './file-digest.ts';
import type { InputFile } from './find-inputs.ts';
import type { LoadedMap } from './loaded-map.ts';
import { rejectRow } from './reject-row.ts';

/** What identifies the rows that a file gave: of readings their jobs, of other tables key and content. */
export type StagedKeys = Map<string, string>;

/**
 * Stages one mapped file, row by row.
 *
 * @returns what the file touches, by table and key
 * @throws DryholdError `file-unreadable`, `map-invalid`
 */
export async function stageMapped(
  delivery: Delivery,
  file: InputFile,
  { sha256 }: FileDigest,
  map: LoadedMap,
  starts: LogStarts,
): Promise<StagedKeys> {
  const tables = [...new Set(map.map.rows.map((entry) => entry.table))].map((name) => tableNamed(name) as Table);
  const staging: Staging = { delivery, starts, map, file, keys: new Map(), tables: new Map() };
  for (const table of tables) {
    const added = delivery.addFile({ file: file.name, sha256, mapSha256: map.sha256, table });
    staging.tables.set(table.name, { table, ...added, parse: rowParser(table) });
  }
  for (const part of mappedParts(map.map)) await stagePart(staging, part);
  return staging.keys;
}

interface Staging {
  readonly delivery: Delivery;
  readonly starts: LogStarts;
  readonly map: LoadedMap;
  readonly file: InputFile;
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
  const isReading = name === 'readings';
  const key = isReading ? String(row.job_id) : JSON.stringify(of.table.key.map((column) => row[column] ?? null));
  staging.keys.set(`${name}\0${key}`, isReading ? '' : JSON.stringify(row));
  const stage = await staging.delivery.stage(of.table);
  stage.append(row, { fileNumber: of.number, line: source.line, raw: source.raw() });
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
