import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { DryholdError } from '../errors.ts';

/** What one pass over a file's bytes tells. */
export interface FileDigest {
  /** The SHA-256, in hex. */
  readonly sha256: string;
  /**
   * Whether it holds what the engine's CSV reader takes otherwise than ours: a NUL byte, a space beside a quote, or a line so long
   * that the engine leaves it out without a word.
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
 * @throws DryholdError `file-unreadable`
 */
export async function fileDigest(path: string): Promise<FileDigest> {
  const hash = createHash('sha256');
  let oddText = false;
  let oddNumbers = false;
  let hasApostrophe = false;
  let last = '';
  let sinceEnd = 0;
  try {
    for await (const chunk of createReadStream(path, { highWaterMark: 1 << 20 })) {
      const block = chunk as Buffer;
      hash.update(block);
      const seam = last + String.fromCharCode(block[0]);
      oddText ||= seam === '" ' || seam === ' "' || ['\0', '" ', ' "'].some((odd) => block.includes(odd));
      const firstEnd = block.indexOf(10);
      oddText ||= sinceEnd + (firstEnd < 0 ? block.length : firstEnd) > longLineBytes;
      sinceEnd = firstEnd < 0 ? sinceEnd + block.length : block.length - block.lastIndexOf(10) - 1;
      hasApostrophe ||= block.includes("'");
      oddNumbers ||= seam === '+-' || block.includes('_') || block.includes('+-');
      last = String.fromCharCode(block[block.length - 1]);
    }
  } catch (error) {
    throw new DryholdError('file-unreadable', { path, problem: (error as Error).message }, error);
  }
  return { sha256: hash.digest('hex'), oddText, oddNumbers, hasApostrophe };
}
