import { closeSync, createReadStream, openSync, readSync } from 'node:fs';
import { DryholdError } from '../errors.ts';
import type { TextEncoding } from './source-file.ts';

/** How much of a file is looked at to tell what it is [bytes]. */
export const headBytes = 64 * 1024;

/** The first 64 KiB of a file, or all of it. */
export function firstBytes(path: string): Buffer {
  try {
    const file = openSync(path, 'r');
    try {
      const buffer = Buffer.alloc(headBytes);
      return buffer.subarray(0, readSync(file, buffer, 0, headBytes, 0));
    } finally {
      closeSync(file);
    }
  } catch (error) {
    throw new DryholdError('file-unreadable', { path, problem: (error as Error).message }, error);
  }
}

/** The encoding that a byte order mark says. */
export function markedEncoding(bytes: Buffer): TextEncoding | undefined {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return 'utf-16le';
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return 'utf-16be';
  return bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf ? 'utf-8' : undefined;
}

/** A text file's blocks as UTF-8, without a byte order mark where another encoding was decoded. */
export async function* textBlocks(path: string, encoding?: TextEncoding): AsyncGenerator<Buffer> {
  const from = encoding ?? markedEncoding(firstBytes(path)) ?? 'utf-8';
  const file = createReadStream(path, { highWaterMark: 1 << 20 });
  try {
    if (from === 'utf-8') yield* file as AsyncIterable<Buffer>;
    else {
      const decoder = new TextDecoder(from);
      for await (const block of file) yield Buffer.from(decoder.decode(block as Buffer, { stream: true }));
      yield Buffer.from(decoder.decode());
    }
  } finally {
    file.destroy();
  }
}

/** The first 64 KiB of a text file as text, without a byte order mark. */
export function firstText(path: string, encoding?: TextEncoding): string {
  const bytes = firstBytes(path);
  return new TextDecoder(encoding ?? markedEncoding(bytes) ?? 'utf-8').decode(bytes);
}

/** The first lines of a text file, as far as its first 64 KiB go, without a byte order mark. */
export function firstLines(path: string, encoding?: TextEncoding): string[] {
  return firstText(path, encoding).split(/\r\n|\n|\r/);
}
