import { statSync } from 'node:fs';
import { resolve } from 'node:path';
import { DryholdError, machineProblem } from '../errors.ts';

/** A file that was changed so shortly before it was read may be changed again without its times telling [ms]. */
const freshMs = 2000;

/** What tells one state of a file from the next without reading it. */
export interface FileState {
  readonly stamp: string;
  /** Whether its times may not tell a change: its bytes must be compared, too. */
  readonly isFresh: boolean;
}

/**
 * The state of a file before it is read.
 *
 * @throws DryholdError `file-unreadable`
 */
export function fileState(path: string): FileState {
  try {
    const { dev, ino, size, mtimeNs, ctimeNs } = statSync(path, { bigint: true });
    const newestMs = Number((mtimeNs > ctimeNs ? mtimeNs : ctimeNs) / 1_000_000n);
    return { stamp: [dev, ino, size, mtimeNs, ctimeNs].join(), isFresh: Date.now() - newestMs < freshMs };
  } catch (error) {
    throw unreadable(path, error);
  }
}

/** Whether a file is in the same state still, as far as its place, size and times tell. */
export function isInState(path: string, { stamp }: FileState): boolean {
  try {
    return fileState(path).stamp === stamp;
  } catch {
    return false;
  }
}

/** Why a file cannot be read, as an error that is the file's own. */
export function unreadable(path: string, error: unknown): DryholdError {
  if (error instanceof DryholdError) return error;
  const isGone = (error as NodeJS.ErrnoException).code === 'ENOENT';
  const problem = isGone ? 'it is gone' : (machineProblem(error) ?? (error as Error).message.split('\n')[0]);
  return new DryholdError('file-unreadable', { path, problem }, error);
}

/** An error that the machine gave on reading a file, as one that is the file's own; any other comes back as it is. */
export function readingError(path: string, error: unknown): unknown {
  const of = error instanceof Error ? (error as NodeJS.ErrnoException).path : undefined;
  return of !== undefined && resolve(of) === resolve(path) ? unreadable(path, error) : error;
}

/** That a file did not keep still: its rows would be of one state and its digest of another. */
export function changedWhileRead(path: string, cause?: unknown): DryholdError {
  const problem = 'it was changed while it was read; take it in again once it is whole';
  return new DryholdError('file-unreadable', { path, problem }, cause);
}
