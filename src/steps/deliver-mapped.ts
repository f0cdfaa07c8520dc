import { join } from 'node:path';
import { DryholdError } from '../errors.ts';
import { fileKindOf } from '../sources/file-kinds.ts';
import { Delivery } from '../store/delivery.ts';
import { breakdownOn } from '../store/engine-breakdown.ts';
import { NewLogStarts, StoredLogStarts } from '../store/log-starts.ts';
import type { Store } from '../store/store.ts';
import { type FileDigest, fileDigest, isOfLines, whileUnchanged } from './file-digest.ts';
import { readingError } from './file-state.ts';
import { type InputFile, mappedInput } from './find-inputs.ts';
import type { IngestResult } from './ingest-result.ts';
import { KnownFiles } from './known-files.ts';
import type { LoadedMap } from './loaded-map.ts';
import { isMeant, pickMap } from './pick-map.ts';
import { mappedKind, type Staged, stageMapped, wholeFromBytes } from './stage-mapped.ts';
import { isPacked, packedWithin, unpacked } from './unpack.ts';

/** So much is made known at once: many small files cost one transaction, and memory stays bounded. */
const batch = { files: 1000, rows: 500_000 };

/** What is told of a file as it goes: how far it is [ratio], and how many rows of it were read. */
export type FileProgress = (file: InputFile, done: number, rows: number) => void;

/**
 * Takes mapped files into the store, many small ones in one transaction. What comes of it is the same as if each came alone:
 * where a file has a say in what another of the batch has had a say in, the batch is made known first.
 */
export class MappedDeliveries {
  readonly #store: Store;
  readonly #maps: readonly LoadedMap[];
  readonly #result: IngestResult;
  readonly #known: KnownFiles;
  readonly #starts: StoredLogStarts;
  /** Whether a map that does not fit ends the work: there is nothing else to do then. */
  readonly #alone: boolean;
  #delivery: Delivery;
  #keys: Staged['keys'] = new Map();
  #files = 0;

  private constructor(
    store: Store,
    maps: readonly LoadedMap[],
    result: IngestResult,
    known: KnownFiles,
    starts: StoredLogStarts,
    alone: boolean,
  ) {
    this.#store = store;
    this.#maps = maps;
    this.#result = result;
    this.#known = known;
    this.#starts = starts;
    this.#alone = alone;
    this.#delivery = new Delivery(store, starts);
  }

  /** @param alone whether a single file was asked for: a map that does not fit it is an error, not a refused file */
  static async begin(
    store: Store,
    maps: readonly LoadedMap[],
    result: IngestResult,
    alone: boolean,
  ): Promise<MappedDeliveries> {
    const [known, starts] = [await KnownFiles.read(store), await StoredLogStarts.read(store)];
    return new MappedDeliveries(store, maps, result, known, starts, alone);
  }

  /**
   * Takes one file in, or each of those that are packed in it.
   *
   * @param fromFolder whether the file was found in a folder, where files of other kinds may lie
   */
  async take(file: InputFile, fromFolder: boolean, onProgress: FileProgress): Promise<void> {
    if (file.problem !== undefined || !isPacked(file.path)) {
      await this.#takePlain(file, fromFolder, onProgress);
      onProgress(file, 1, 0);
      return;
    }
    const folder = join(this.#store.folder, 'spill', `unpacked-${process.pid}`);
    await this.#orRefuse(file, async () => {
      const isArchive = !/\.gz$/i.test(file.path);
      for await (const { path, name } of unpacked(file.path, folder, (inner) => !/(^|\/)\./.test(inner)))
        await this.#takePlain(
          mappedInput(
            path,
            isArchive ? `${file.name}/${name}` : file.name,
            isArchive && isPacked(name) ? packedWithin : undefined,
          ),
          isArchive || fromFolder,
          onProgress,
        );
    });
    onProgress(file, 1, 0);
  }

  /** Makes known what is not yet. */
  async end(): Promise<void> {
    await this.#publish();
  }

  /** Forgets what is not yet known. */
  async discard(): Promise<void> {
    await this.#delivery.discard();
  }

  async #takePlain(file: InputFile, fromFolder: boolean, onProgress: FileProgress): Promise<void> {
    await this.#orRefuse(file, async () => {
      if (file.problem !== undefined) {
        const mayBeMeant = !fromFolder || fileKindOf(file.name) !== undefined || isPacked(file.name);
        if (mayBeMeant) throw new DryholdError('file-unreadable', { path: file.path, problem: file.problem });
        this.#result.leftAside.push(file.name);
        return;
      }
      const isMap = this.#maps.some((map) => map.path === file.path);
      if (fromFolder && (isMap || !this.#maps.some((map) => isMeant(map, file)))) {
        this.#result.leftAside.push(file.name);
        return;
      }
      const isLines = this.#maps.every((map) => isOfLines(mappedKind(map, file)));
      const digest = await fileDigest(file.path, isLines);
      const map = await pickMap(this.#store, this.#maps, file);
      if (this.#known.has(file.name, digest.sha256, map)) this.#result.alreadyIn.push(file.name);
      else await this.#stage(file, digest, map, onProgress);
    });
  }

  async #stage(file: InputFile, digest: FileDigest, map: LoadedMap, onProgress: FileProgress): Promise<void> {
    const timer = setInterval(() => onProgress(file, 0.5, this.#delivery.files.at(-1)?.rowsRead ?? 0), 250);
    let alone = false;
    try {
      // A large file is mostly made known by itself: better before it is staged than after.
      if (digest.bytes >= wholeFromBytes) await this.#publish();
      const before = this.#delivery.files.length;
      let staged = await this.#staged(file, digest, map);
      if (before > 0 && (staged.alone || this.#clashes(staged.keys))) {
        await this.#delivery.dropFilesFrom(before);
        await this.#publish();
        staged = await this.#staged(file, digest, map);
      }
      for (const [key, said] of staged.keys) this.#note(key, said);
      alone = staged.alone;
    } finally {
      clearInterval(timer);
    }
    this.#known.add(file.name, digest.sha256, map);
    this.#files += 1;
    const rows = this.#delivery.files.reduce((sum, { rowsRead }) => sum + rowsRead, 0);
    if (alone || this.#files >= batch.files || rows >= batch.rows) await this.#publish();
  }

  async #staged(file: InputFile, digest: FileDigest, map: LoadedMap): Promise<Staged> {
    const before = this.#delivery.files.length;
    // When logs began is known from files that came in, and from no others.
    const starts = new NewLogStarts(this.#starts);
    try {
      const staged = await whileUnchanged(file.path, digest, () =>
        stageMapped(this.#delivery, file, digest, map, starts),
      );
      starts.keep();
      return staged;
    } catch (error) {
      await this.#delivery.dropFilesFrom(before);
      throw error;
    }
  }

  /** Whether a file says of a record, or of a column of a job's readings, what another of the batch has a say in. */
  #clashes(keys: Staged['keys']): boolean {
    for (const [key, said] of keys) {
      const other = this.#keys.get(key);
      if (other === undefined) continue;
      if (typeof said === 'string' || typeof other === 'string') {
        if (said !== other) return true;
      } else if ([...said].some((column) => other.has(column))) return true;
    }
    return false;
  }

  #note(key: string, said: string | Set<string>): void {
    const other = this.#keys.get(key);
    this.#keys.set(key, typeof said === 'string' || !(other instanceof Set) ? said : new Set([...other, ...said]));
  }

  async #publish(): Promise<void> {
    const delivery = this.#delivery;
    if (delivery.isEmpty) return;
    this.#delivery = new Delivery(this.#store, this.#starts);
    this.#keys = new Map();
    this.#files = 0;
    try {
      this.#result.sources.push(...(await delivery.publish()));
      this.#result.overruled.push(...delivery.overruled);
    } catch (error) {
      await delivery.discard().catch(() => undefined);
      throw error;
    }
  }

  /** A full disk ends the work; a file that cannot be read, or that its map does not fit, is a refused file. */
  async #orRefuse(file: InputFile, work: () => Promise<void>): Promise<void> {
    try {
      await work();
    } catch (thrown) {
      const error = readingError(file.path, thrown);
      if (!(error instanceof DryholdError)) throw breakdownOn(file.path, error);
      const detail = refusal(error);
      if (detail === undefined || (error.code === 'map-invalid' && this.#alone)) throw error;
      this.#result.refusedFiles.push({ file: file.name, detail });
      await this.#delivery.reject({ file: file.name, line: 0, reason_id: error.code, detail });
    }
  }
}

/** Why a file is refused; undefined where the error is none of the file's. */
function refusal(error: DryholdError): string | undefined {
  if (error.code === 'file-unreadable') return (error.parameters as { problem: string }).problem;
  return error.code === 'map-invalid' ? error.message : undefined;
}
