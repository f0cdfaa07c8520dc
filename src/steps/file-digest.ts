import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { changedWhileRead, type FileState, fileState, isInState, unreadable } from './file-state.ts';

/** What one pass over a file's bytes tells. */
export interface FileDigest {
  /** The SHA-256, in hex. */
  readonly sha256: string;
  /** How large it is [bytes]. */
  readonly bytes: number;
  /** The state it was in. */
  readonly state: FileState;
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
  const state = fileState(path);
  const hash = createHash('sha256');
  let bytes = 0;
  let oddText = false;
  let oddNumbers = false;
  let last = '';
  try {
    for await (const chunk of createReadStream(path, { highWaterMark: 1 << 20 })) {
      const block = chunk as Buffer;
      hash.update(block);
      bytes += block.length;
      const seam = last + String.fromCharCode(block[0]);
      oddText ||= seam === '" ' || seam === ' "' || ['\0', '" ', ' "'].some((odd) => block.includes(odd));
      oddNumbers ||= seam === '+-' || block.includes('_') || block.includes('+-');
      last = String.fromCharCode(block[block.length - 1]);
    }
  } catch (error) {
    throw unreadable(path, error);
  }
  return { sha256: hash.digest('hex'), bytes, state, oddText, oddNumbers };
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
