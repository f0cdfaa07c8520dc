import { rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { DryholdError, type ErrorParameters } from '../errors.ts';
import { fileKinds } from '../sources/file-kinds.ts';
import { compact } from '../store/compact.ts';
import { Delivery } from '../store/delivery.ts';
import { breakdownOn } from '../store/engine-breakdown.ts';
import type { Store } from '../store/store.ts';
import { writingError } from '../store/writing-error.ts';
import { type FileDigest, fileDigest, isOfLines } from './file-digest.ts';
import { bundlesBelow } from './bundles-below.ts';
import { readingError } from './file-state.ts';
import { MappedDeliveries } from './deliver-mapped.ts';
import { bundleFiles, type InputFile, mappedFiles, type NamedPath, namedPaths } from './find-inputs.ts';
import { addResult, type IngestResult, nothingIngested } from './ingest-result.ts';
import { type LoadedMap, loadMap } from './loaded-map.ts';
import { realPath } from './real-path.ts';
import { stageFile } from './stage-file.ts';
import { type BundleInput, unpackedBundle } from './unpacked-bundle.ts';
import { isPacked } from './unpack.ts';

/** What an ingest reports as it goes. */
export interface IngestProgress {
  /** Bytes of input, in all and read so far, and rows of the file that is read row by row. */
  (done: { bytesRead: number; bytes: number; file: string; rows: number }): void;
}

export interface IngestOptions {
  /** Paths of source maps; without one, the paths are bundles. Of several the one counts that a file looks like. */
  readonly map?: string | readonly string[];
  /** Of what lies in the folders only these files, by any path that leads to them; all without it. */
  readonly only?: ReadonlySet<string>;
  readonly onProgress?: IngestProgress;
}

/** So many mapped files are many. */
const manyFiles = 100;

/** How often a file under way is reported [ms]. */
const progressMs = 250;

/**
 * Takes files, folders or globs into the store: each bundle, or each mapped file, as one delivery in one transaction.
 *
 * @throws DryholdError where a path does not exist, holds nothing to read, the map is wrong, or the store cannot be written
 */
export async function ingest(
  store: Store,
  paths: readonly string[],
  options: IngestOptions = {},
): Promise<IngestResult> {
  const result = nothingIngested();
  const only = options.only && new Set([...options.only].map(realPath));
  const asked = { ...options, ...(only && { only }) };
  const maps = [options.map ?? []].flat().map(loadMap);
  const found = namedPaths(paths);
  try {
    if (maps.length > 0) await ingestMapped(store, found, maps, result, asked);
    else await ingestBundles(store, found, result, asked);
    await compact(store);
  } catch (error) {
    throw writingError(store.folder, error);
  }
  return result;
}

async function ingestMapped(
  store: Store,
  paths: readonly NamedPath[],
  maps: readonly LoadedMap[],
  result: IngestResult,
  { only, onProgress }: IngestOptions,
): Promise<void> {
  const found = paths.flatMap(({ path, name }) => {
    const fromFolder = statSync(path).isDirectory();
    return mappedFiles(path, name)
      .filter(({ path: own }) => isAsked(own, only))
      .map((file) => ({ file, fromFolder, size: sizeOf(file) }));
  });
  const bytes = found.reduce((sum, { size }) => sum + size, 0);
  const alone = found.length === 1 && found.every(({ file, fromFolder }) => !fromFolder && !isPacked(file.path));
  const deliveries = await MappedDeliveries.begin(store, maps, result, alone);
  let bytesRead = 0;
  try {
    // Many batches, each of them small: the engine needs little, and what it is let have it keeps.
    if (found.length > manyFiles) await store.holdInMemory('spare');
    for (const { file, fromFolder, size } of found) {
      await deliveries.take(file, fromFolder, (of, done, rows) =>
        onProgress?.({ bytesRead: bytesRead + (done === 1 ? size : 0), bytes, file: of.name, rows }),
      );
      bytesRead += size;
    }
    await deliveries.end();
  } catch (error) {
    await deliveries.discard().catch(() => undefined);
    throw error;
  } finally {
    if (found.length > manyFiles) await store.holdInMemory('usual');
  }
}

async function ingestBundles(
  store: Store,
  given: readonly NamedPath[],
  result: IngestResult,
  { only, onProgress }: IngestOptions,
): Promise<void> {
  const found = given.map(bundlesBelow);
  const paths = found.flatMap(({ bundles }) => bundles).filter(({ path }) => !isPacked(path) || isAsked(path, only));
  result.namedAfterNone.push(
    ...found.flatMap(({ leftAside }) => leftAside.filter(({ path }) => isAsked(path, only)).map(({ name }) => name)),
  );
  const sizes = paths.map(({ path }) => (isPacked(path) ? statSync(path).size : bytesOf(bundleFiles(path))));
  const bytes = sizes.reduce((sum, size) => sum + size, 0);
  const folder = join(store.folder, 'spill', `unpacked-${process.pid}`);
  let bytesRead = 0;
  for (const [index, path] of paths.entries()) {
    try {
      const files = await unpackedBundle(path, folder).catch((error: unknown) => refusedBundle(path, error, paths));
      const inputs = files.filter(({ from }) => isAsked(from, only));
      if (inputs.length === 0) continue;
      const whole = bytesOf(inputs.map(({ file }) => file));
      let done = 0;
      await deliver(store, inputs, result, (file, part, rows) => {
        const size = sizeOf(file);
        const ratio = whole === 0 ? 1 : (done + part * size) / whole;
        onProgress?.({ bytesRead: bytesRead + ratio * sizes[index], bytes, file: file.name, rows });
        if (part === 1) done += size;
      });
    } finally {
      rmSync(folder, { recursive: true, force: true });
      bytesRead += sizes[index];
    }
  }
  const refused = found.flatMap((each) => each.refused.filter(({ path }) => isAsked(path, only))).map(refusedInput);
  if (refused.length > 0) await deliver(store, refused, result, () => undefined);
}

/** An archive that cannot be unpacked is a refused file where others came along; alone it is an error. */
function refusedBundle({ path, name }: NamedPath, error: unknown, all: readonly NamedPath[]): BundleInput[] {
  const isRefused =
    error instanceof DryholdError && ['file-unreadable', 'nothing-to-read'].includes(error.code) && isPacked(path);
  if (!isRefused || all.length === 1) throw error;
  return [{ from: path, file: { path, name, kind: fileKinds[0] }, unreadable: error }];
}

/** What a folder holds and nothing may enter: a refused file that says why. */
function refusedInput({ path, name, problem }: NamedPath & { readonly problem: string }): BundleInput {
  const file = { path, name, kind: fileKinds[0] };
  return { from: path, file, unreadable: new DryholdError('file-unreadable', { path, problem }) };
}

/** Whether a file is among those that were asked for. */
function isAsked(path: string, only: ReadonlySet<string> | undefined): boolean {
  return only?.has(realPath(path)) ?? true;
}

function bytesOf(files: readonly InputFile[]): number {
  return files.reduce((sum, file) => sum + sizeOf(file), 0);
}

/** A file's size [bytes]; one that has gone meanwhile is told of when it is read. */
function sizeOf(file: InputFile): number {
  return statSync(file.path, { throwIfNoEntry: false })?.size ?? 0;
}

async function deliver(
  store: Store,
  inputs: readonly BundleInput[],
  result: IngestResult,
  onFile: (file: InputFile, done: number, rows: number) => void,
): Promise<void> {
  const delivery = new Delivery(store);
  const again = new Map<number, StagedWhole>();
  const own = nothingIngested();
  try {
    for (const { file, unreadable } of inputs) {
      const rows = () => delivery.files.findLast((staged) => staged.file === file.name)?.rowsRead ?? 0;
      // Several statements serve one file; what is told of it only grows.
      let furthest = 0;
      const timer = setInterval(() => {
        furthest = Math.max(furthest, Math.min(store.statementDone, 0.99));
        onFile(file, furthest, rows());
      }, progressMs);
      await orRefuse(delivery, file, own, async () => {
        if (unreadable !== undefined) throw unreadable;
        const digest = await fileDigest(file.path, isOfLines(file.kind.id));
        if (await alreadyIn(store, file, digest.sha256)) own.alreadyIn.push(file.name);
        else await stageNew(delivery, file, digest, own, again);
      }).finally(() => clearInterval(timer));
      onFile(file, 1, rows());
    }
    const spoilt = await stageEntangled(delivery, again);
    if (spoilt !== undefined) {
      // It hardly ever happens: all of it once more, without that file.
      await delivery.discard();
      const without = inputs.map((input) =>
        input.file === spoilt.file ? { ...input, unreadable: spoilt.error } : input,
      );
      return await deliver(store, without, result, onFile);
    }
    own.sources.push(...(await delivery.publish()));
    own.overruled.push(...delivery.overruled);
    addResult(result, own);
  } catch (error) {
    // What went wrong first is told, not that nothing more can be done after it.
    await delivery.discard().catch(() => undefined);
    throw error;
  }
}

/** A file of readings that the engine took whole, and how to stage it row by row. */
interface StagedWhole {
  readonly file: InputFile;
  readonly stage: () => Promise<void>;
}

/**
 * Stages row by row what the engine took whole and cannot stay so.
 *
 * @returns the file that cannot be read so: rows need what no column needed, or it changed meanwhile
 */
async function stageEntangled(
  delivery: Delivery,
  again: ReadonlyMap<number, StagedWhole>,
): Promise<{ file: InputFile; error: DryholdError } | undefined> {
  for (const number of await delivery.dropEntangled()) {
    const whole = again.get(number);
    try {
      await whole?.stage();
    } catch (thrown) {
      const error = whole === undefined ? undefined : refusalOf(whole.file, thrown);
      if (whole === undefined || error === undefined) throw thrown;
      return { file: whole.file, error };
    }
  }
  return undefined;
}

async function stageNew(
  delivery: Delivery,
  file: InputFile,
  digest: FileDigest,
  result: IngestResult,
  again: Map<number, StagedWhole>,
): Promise<void> {
  const staged = await stageFile(delivery, file, digest);
  if (staged.unknownColumns.length > 0) result.unknownColumns.push({ file: file.name, columns: staged.unknownColumns });
  if (staged.again !== undefined) again.set(staged.again.number, { file, stage: staged.again.stage });
}

/** A full disk ends the work; a file that cannot be read is a refused file, and the rest goes on. */
async function orRefuse(
  delivery: Delivery,
  file: InputFile,
  result: IngestResult,
  work: () => Promise<void>,
): Promise<void> {
  try {
    await work();
  } catch (thrown) {
    const error = refusalOf(file, thrown);
    if (error === undefined) throw breakdownOn(file.path, thrown);
    const detail = (error.parameters as ErrorParameters['file-unreadable']).problem;
    result.refusedFiles.push({ file: file.name, detail });
    await delivery.reject({ file: file.name, line: 0, table_name: file.table?.name, reason_id: error.code, detail });
  }
}

/** That a file cannot be read, or undefined where something else went wrong. */
function refusalOf(file: InputFile, thrown: unknown): DryholdError | undefined {
  const error = readingError(file.path, thrown);
  return error instanceof DryholdError && error.code === 'file-unreadable' ? error : undefined;
}

async function alreadyIn(store: Store, file: InputFile, sha256: string): Promise<boolean> {
  const rows = await store.rows(
    "SELECT 1 FROM sources WHERE sha256 = $1 AND map_sha256 = '' AND table_name = $2 LIMIT 1",
    [sha256, file.table?.name ?? ''],
  );
  return rows.length > 0;
}
