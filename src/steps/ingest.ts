import { statSync } from 'node:fs';
import { DryholdError, type ErrorParameters } from '../errors.ts';
import type { Source } from '../records/tables/sources.ts';
import { compact } from '../store/compact.ts';
import { Delivery } from '../store/delivery.ts';
import type { Store } from '../store/store.ts';
import { writingError } from '../store/writing-error.ts';
import { type FileDigest, fileDigest } from './file-digest.ts';
import { bundleFiles, expandPath, type InputFile, mappedFiles } from './find-inputs.ts';
import { type LoadedMap, loadMap } from './loaded-map.ts';
import { stageFile } from './stage-file.ts';

/** What an ingest reports as it goes. */
export interface IngestProgress {
  /** Bytes of input, in all and read so far, and rows of the file that is read row by row. */
  (done: { bytesRead: number; bytes: number; file: string; rows: number }): void;
}

export interface IngestOptions {
  /** A source map's path; without one, the paths are bundles. */
  readonly map?: string;
  readonly onProgress?: IngestProgress;
}

/** How often a file under way is reported [ms]. */
const progressMs = 250;

/** What an ingest did. */
export interface IngestResult {
  /** One row per file and table that was read now. */
  readonly sources: Source[];
  /** Files that the store already had, byte by byte. */
  readonly alreadyIn: string[];
  /** Column names that the tables do not have, by file; they were left out. */
  readonly unknownColumns: { file: string; columns: string[] }[];
  /** Files that could not be read at all; each is a row of `rejects` with line 0. */
  readonly refusedFiles: { file: string; detail: string }[];
}

/**
 * Takes files, folders or globs into the store: each bundle, or each mapped file, as one delivery in one transaction.
 *
 * @throws DryholdError where a path does not exist, holds nothing to read, or the map is wrong
 */
export async function ingest(
  store: Store,
  paths: readonly string[],
  options: IngestOptions = {},
): Promise<IngestResult> {
  const map = options.map === undefined ? undefined : loadMap(options.map);
  const deliveries = paths
    .flatMap(expandPath)
    .flatMap((path) => (map === undefined ? [bundleFiles(path)] : mappedFiles(path).map((file) => [file])));
  const bytes = deliveries.flat().reduce((sum, file) => sum + statSync(file.path).size, 0);
  const result: IngestResult = { sources: [], alreadyIn: [], unknownColumns: [], refusedFiles: [] };
  let bytesRead = 0;
  for (const files of deliveries) {
    await deliver(store, files, map, result, (file, done, rows) => {
      const size = statSync(file.path).size;
      options.onProgress?.({ bytesRead: bytesRead + done * size, bytes, file: file.name, rows });
      if (done === 1) bytesRead += size;
    });
  }
  await compact(store);
  return result;
}

async function deliver(
  store: Store,
  files: readonly InputFile[],
  map: LoadedMap | undefined,
  result: IngestResult,
  onFile: (file: InputFile, done: number, rows: number) => void,
): Promise<void> {
  const delivery = new Delivery(store);
  const again = new Map<number, () => Promise<void>>();
  try {
    for (const file of files) {
      const rows = () => delivery.files.findLast((staged) => staged.file === file.name)?.rowsRead ?? 0;
      // Several statements serve one file; what is told of it only grows.
      let furthest = 0;
      const timer = setInterval(() => {
        furthest = Math.max(furthest, Math.min(store.statementDone, 0.99));
        onFile(file, furthest, rows());
      }, progressMs);
      await orRefuse(delivery, file, result, async () => {
        const digest = await fileDigest(file.path);
        if (await alreadyIn(store, file, digest.sha256, map)) result.alreadyIn.push(file.name);
        else await stageNew(delivery, file, digest, map, result, again);
      }).finally(() => clearInterval(timer));
      onFile(file, 1, rows());
    }
    for (const number of await delivery.dropEntangled()) await again.get(number)?.();
    result.sources.push(...(await delivery.publish()));
  } catch (error) {
    await delivery.discard();
    throw writingError(store.folder, error);
  }
}

async function stageNew(
  delivery: Delivery,
  file: InputFile,
  digest: FileDigest,
  map: LoadedMap | undefined,
  result: IngestResult,
  again: Map<number, () => Promise<void>>,
): Promise<void> {
  const staged = await stageFile(delivery, file, digest, map);
  if (staged.unknownColumns.length > 0) result.unknownColumns.push({ file: file.name, columns: staged.unknownColumns });
  if (staged.again !== undefined) again.set(staged.again.number, staged.again.stage);
}

/** A map that does not fit or a full disk ends the work; a file that cannot be read is a refused file, and the rest goes on. */
async function orRefuse(
  delivery: Delivery,
  file: InputFile,
  result: IngestResult,
  work: () => Promise<void>,
): Promise<void> {
  try {
    await work();
  } catch (error) {
    if (!(error instanceof DryholdError) || error.code !== 'file-unreadable') throw error;
    const detail = (error.parameters as ErrorParameters['file-unreadable']).problem;
    result.refusedFiles.push({ file: file.name, detail });
    await delivery.reject({ file: file.name, line: 0, table_name: file.table?.name, reason_id: error.code, detail });
  }
}

async function alreadyIn(store: Store, file: InputFile, sha256: string, map: LoadedMap | undefined): Promise<boolean> {
  const tables = file.table === undefined ? (map?.map.rows.map((entry) => entry.table) ?? []) : [file.table.name];
  const rows = await store.rows<{ n: number }>(
    `SELECT count(DISTINCT table_name) AS n FROM sources WHERE sha256 = $1 AND map_sha256 = $2 AND list_contains(string_split($3, ','), table_name)`,
    [sha256, map?.sha256 ?? '', tables.join(',')],
  );
  return rows[0].n === new Set(tables).size;
}
