import { isUtf8 } from 'node:buffer';
import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { type FileKind, longestLineBytes } from '../sources/source-file.ts';
import { changedWhileRead, type FileState, fileState, isInState, unreadable } from './file-state.ts';

/** What one pass over a file's bytes tells. */
export interface FileDigest {
  /** The SHA-256, in hex. */
  readonly sha256: string;
  /** How large it is [bytes]. */
  readonly bytes: number;
  /** The state it was in. */
  readonly state: FileState;
  /**
   * Whether it holds what the engine's CSV reader takes otherwise than ours: a NUL byte, a space beside a quote, a line so long
   * that the engine leaves it out without a word, or bytes that are no UTF-8, at which the engine may break down altogether.
   */
  readonly oddText: boolean;
  /** Whether there is an apostrophe in it, which may be the mark of an export. */
  readonly hasApostrophe: boolean;
  /** Whether it holds what in a number's text only the engine takes: an underscore, or a plus before a minus. */
  readonly oddNumbers: boolean;
}

/** The engine takes lines of 2 MiB. */
const longLineBytes = 1024 ** 2;

/**
 * Reads a file once and tells its digest.
 *
 * @param isLines whether the file is one of lines; it is not read on past one that is far longer than any row
 * @throws DryholdError `file-unreadable`
 */
export async function fileDigest(path: string, isLines = false): Promise<FileDigest> {
  const state = fileState(path);
  const hash = createHash('sha256');
  let bytes = 0;
  let oddText = false;
  let oddNumbers = false;
  let hasApostrophe = false;
  let last = '';
  let begun: Buffer = Buffer.alloc(0);
  let sinceEnd = 0;
  let lineStart = 0;
  try {
    for await (const chunk of createReadStream(path, { highWaterMark: 1 << 20 })) {
      const block = chunk as Buffer;
      hash.update(block);
      bytes += block.length;
      const seam = last + String.fromCharCode(block[0]);
      oddText ||= seam === '" ' || seam === ' "' || ['\0', '" ', ' "'].some((odd) => block.includes(odd));
      if (!oddText) {
        const text = begun.length === 0 ? block : Buffer.concat([begun, block]);
        const end = text.length - unfinishedBytes(text);
        oddText = !isUtf8(text.subarray(0, end));
        begun = text.subarray(end);
      }
      const firstEnd = block.indexOf(10);
      oddText ||= sinceEnd + (firstEnd < 0 ? block.length : firstEnd) > longLineBytes;
      sinceEnd = firstEnd < 0 ? sinceEnd + block.length : block.length - block.lastIndexOf(10) - 1;
      if (firstEnd >= 0 || block.includes(13)) lineStart = bytes;
      else if (isLines && bytes - lineStart > longestLineBytes)
        throw new Error(
          `a line that begins before byte ${lineStart} is longer than 4 MiB; is a quote open that is never closed?`,
        );
      hasApostrophe ||= block.includes("'");
      oddNumbers ||= seam === '+-' || block.includes('_') || block.includes('+-');
      last = String.fromCharCode(block[block.length - 1]);
    }
  } catch (error) {
    throw unreadable(path, error);
  }
  oddText ||= begun.length > 0;
  return { sha256: hash.digest('hex'), bytes, state, oddText, oddNumbers, hasApostrophe };
}

/** How many bytes at the end of a text begin a character that is not all there. */
function unfinishedBytes(text: Buffer): number {
  for (let back = 1; back <= Math.min(3, text.length); back += 1) {
    const byte = text[text.length - back];
    if ((byte & 0xc0) === 0x80) continue;
    const length = byte >= 0xf0 ? 4 : byte >= 0xe0 ? 3 : byte >= 0xc0 ? 2 : 1;
    return length > back ? back : 0;
  }
  return 0;
}

/**
 * Does what reads a file anew after its digest was taken, and makes sure that both saw the same bytes.
 *
 * @throws DryholdError `file-unreadable` where the file changed meanwhile, whatever the work came to
 */
export async function whileUnchanged<Result>(
  path: string,
  { sha256, state }: FileDigest,
  work: () => Promise<Result>,
): Promise<Result> {
  let result: Result;
  try {
    result = await work();
  } catch (error) {
    throw isInState(path, state) ? error : changedWhileRead(path, error);
  }
  if (isInState(path, state) && (!state.isFresh || (await fileDigest(path)).sha256 === sha256)) return result;
  throw changedWhileRead(path);
}

/** Whether files of a kind are made of lines. */
export function isOfLines(kind: FileKind['id']): boolean {
  return kind === 'csv' || kind === 'ndjson';
}
