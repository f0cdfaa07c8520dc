import { createReadStream, createWriteStream, mkdirSync, rmSync } from 'node:fs';
import { basename, dirname, extname, join } from 'node:path';
import { Transform } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { createGunzip, crc32 } from 'node:zlib';
import yauzl from 'yauzl';
import { DryholdError } from '../errors.ts';
import { changedWhileRead, fileState, isInState } from './file-state.ts';

/** What is packed may unpack to so much at most, per file [bytes]: more is no log but an accident or an attack. */
const mostBytes = 8 * 1024 ** 3;
/** An archive may hold so many files at most. */
const mostFiles = 200_000;

/** A file that was packed: where it was unpacked to, and what it was called within. */
export interface UnpackedFile {
  readonly path: string;
  /** The name within an archive; of a single packed file its name without `.gz`. */
  readonly name: string;
}

/** What is no fault of what is packed but of the disk that it is unpacked to. */
const fullDisk: ReadonlySet<string> = new Set(['ENOSPC', 'EDQUOT', 'EROFS']);

const packedExtensions = ['.gz', '.zip'];

/** Whether a path names something packed. */
export function isPacked(path: string): boolean {
  return packedExtensions.includes(extname(path).toLowerCase());
}

/**
 * Unpacks a `.gz` or a `.zip` whole into a folder.
 *
 * @throws DryholdError `file-unreadable`
 */
export async function unpackInto(path: string, folder: string): Promise<UnpackedFile[]> {
  const files: UnpackedFile[] = [];
  mkdirSync(folder, { recursive: true });
  for await (const file of orUnreadable(
    path,
    filesOf(path, folder, () => true, true),
  ))
    files.push(file);
  return files;
}

/**
 * Unpacks a `.gz` or a `.zip`, file by file, into a folder; each is gone once the next is asked for.
 *
 * @param wanted says of a name whether it is needed
 * @throws DryholdError `file-unreadable`
 */
export async function* unpacked(
  path: string,
  folder: string,
  wanted: (name: string) => boolean = () => true,
): AsyncGenerator<UnpackedFile> {
  mkdirSync(folder, { recursive: true });
  try {
    yield* orUnreadable(path, filesOf(path, folder, wanted, false));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function filesOf(
  path: string,
  folder: string,
  wanted: (name: string) => boolean,
  keep: boolean,
): AsyncGenerator<UnpackedFile> {
  return extname(path).toLowerCase() === '.gz' ? fromGzip(path, folder) : fromZip(path, folder, wanted, keep);
}

async function* orUnreadable(path: string, files: AsyncGenerator<UnpackedFile>): AsyncGenerator<UnpackedFile> {
  const state = fileState(path);
  try {
    for await (const file of files) {
      if (!isInState(path, state)) throw changedWhileRead(path);
      yield file;
    }
  } catch (error) {
    if (error instanceof DryholdError || fullDisk.has((error as NodeJS.ErrnoException).code ?? '')) throw error;
    if (!isInState(path, state)) throw changedWhileRead(path, error);
    const problem = `cannot be unpacked (${(error as Error).message.split('\n')[0]})`;
    throw new DryholdError('file-unreadable', { path, problem }, error);
  }
}

async function* fromGzip(path: string, folder: string): AsyncGenerator<UnpackedFile> {
  const name = basename(path).slice(0, -'.gz'.length);
  const to = join(folder, name);
  await pipeline(createReadStream(path), createGunzip(), limited(), createWriteStream(to));
  yield { path: to, name };
}

async function* fromZip(
  path: string,
  folder: string,
  wanted: (name: string) => boolean,
  keep: boolean,
): AsyncGenerator<UnpackedFile> {
  // Names that lead out of the archive are refused by the reader.
  const archive = await yauzl.openPromise(path);
  try {
    if (archive.entryCount > mostFiles) throw new Error(`it holds more than ${mostFiles} files`);
    for await (const entry of archive.eachEntry()) {
      const name = entry.fileName;
      if (name.endsWith('/') || !wanted(name)) continue;
      const to = join(folder, name);
      mkdirSync(dirname(to), { recursive: true });
      await pipeline(await archive.openReadStreamPromise(entry), limited(entry.crc32), createWriteStream(to));
      yield { path: to, name };
      if (!keep) rmSync(to, { force: true });
    }
  } finally {
    archive.close();
  }
}

/** @param sum the check sum that the bytes must have; a `.gz` is held to its own by who unpacks it */
function limited(sum?: number): Transform {
  let bytes = 0;
  let found = 0;
  return new Transform({
    transform(block: Buffer, _, done) {
      bytes += block.length;
      if (sum !== undefined) found = crc32(block, found);
      if (bytes > mostBytes) done(new Error(`it unpacks to more than ${mostBytes / 1024 ** 3} GiB`));
      else done(null, block);
    },
    flush(done) {
      done(sum === undefined || found === sum ? null : new Error('its check sum is wrong'));
    },
  });
}
