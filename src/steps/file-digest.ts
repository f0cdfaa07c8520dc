import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { DryholdError } from '../errors.ts';

/** What one pass over a file's bytes tells. */
export interface FileDigest {
  /** The SHA-256, in hex. */
  readonly sha256: string;
  /** Whether it holds what the engine's CSV reader takes otherwise than ours: a NUL byte, or a space beside a quote. */
  readonly oddText: boolean;
  /** Whether it holds what in a number's text only the engine takes: an underscore, or a plus before a minus. */
  readonly oddNumbers: boolean;
}

/**
 * Reads a file once and tells its digest.
 *
 * @throws DryholdError `file-unreadable`
 */
export async function fileDigest(path: string): Promise<FileDigest> {
  const hash = createHash('sha256');
  let oddText = false;
  let oddNumbers = false;
  let last = '';
  try {
    for await (const chunk of createReadStream(path, { highWaterMark: 1 << 20 })) {
      const block = chunk as Buffer;
      hash.update(block);
      const seam = last + String.fromCharCode(block[0]);
      oddText ||= seam === '" ' || seam === ' "' || ['\0', '" ', ' "'].some((odd) => block.includes(odd));
      oddNumbers ||= seam === '+-' || block.includes('_') || block.includes('+-');
      last = String.fromCharCode(block[block.length - 1]);
    }
  } catch (error) {
    throw new DryholdError('file-unreadable', { path, problem: (error as Error).message }, error);
  }
  return { sha256: hash.digest('hex'), oddText, oddNumbers };
}
