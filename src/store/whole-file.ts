import {
  accessSync,
  chmodSync,
  closeSync,
  constants,
  existsSync,
  fsyncSync,
  openSync,
  readdirSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { DryholdError, machineProblem } from '../errors.ts';

/** What is being written and must not stay where the program is ended from without. */
const unfinished = new Set<string>();

/**
 * Writes a file aside, under a name that says that it is unfinished, and gives it its own name once all of it is on the disk.
 * Killed anywhere, what was there before is there still. A device or a pipe is written as it is.
 *
 * @param write writes to the path that it is given
 * @throws DryholdError `output-unwritable`
 */
export async function writeWhole(path: string, write: (to: string) => Promise<void> | void): Promise<void> {
  try {
    const { target, mode, isFile } = placeOf(path);
    if (!isFile) return await write(target);
    const aside = asideOf(target);
    removeAbandoned(target);
    unfinished.add(aside);
    try {
      await write(aside);
      keepOnDisk(aside);
      if (mode !== undefined) chmodSync(aside, mode);
      renameSync(aside, target);
    } finally {
      rmSync(aside, { force: true });
      unfinished.delete(aside);
    }
  } catch (error) {
    throw outputError(path, error);
  }
}

/** Writes a text as a whole file. */
export function writeWholeText(path: string, text: string): Promise<void> {
  return writeWhole(path, (to) => writeFileSync(to, text));
}

/**
 * Makes sure that a file can be written before any work is done for it; nothing of it stays.
 *
 * @throws DryholdError `output-unwritable`
 */
export function assertWritable(path: string): void {
  try {
    const { target, isFile } = placeOf(path);
    if (!isFile) return;
    const aside = asideOf(target);
    closeSync(openSync(aside, 'w'));
    rmSync(aside, { force: true });
  } catch (error) {
    throw outputError(path, error);
  }
}

/** Notes a folder or a file that goes where the program is ended from without; gives what ends the note. */
export function noteUnfinished(path: string): () => void {
  unfinished.add(path);
  return () => unfinished.delete(path);
}

/** Removes what is being written: for a program that is about to be ended. */
export function removeUnfinished(): void {
  for (const path of unfinished) rmSync(path, { recursive: true, force: true });
}

/** What a path means: a link's file, and whether it is a file or may become one. */
function placeOf(path: string): { target: string; mode?: number; isFile: boolean } {
  const found = statSync(path, { throwIfNoEntry: false });
  if (found === undefined) return { target: path, isFile: true };
  if (found.isDirectory()) throw new DryholdError('output-unwritable', { path, problem: 'it is a folder' });
  accessSync(path, constants.W_OK);
  return { target: realpathSync(path), mode: found.mode & 0o777, isFile: found.isFile() };
}

function asideOf(target: string): string {
  return `${target}.${process.pid}.part`;
}

/** What killed runs left of the same file. */
function removeAbandoned(target: string): void {
  const folder = dirname(target);
  for (const name of readdirSync(folder)) {
    if (!name.startsWith(`${basename(target)}.`)) continue;
    const process = /^\.(\d+)\.part$/.exec(name.slice(basename(target).length))?.[1];
    if (process !== undefined && !isRunning(Number(process))) rmSync(join(folder, name), { force: true });
  }
}

/** Whether a process of this machine is still there. */
export function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

/** Waits until a file's bytes are on the disk, or a folder's names where the machine can. */
export function keepOnDisk(path: string): void {
  if (!existsSync(path)) return;
  const isFolder = statSync(path).isDirectory();
  if (isFolder && process.platform === 'win32') return;
  const handle = openSync(path, isFolder ? 'r' : 'r+');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

function outputError(path: string, error: unknown): unknown {
  if (error instanceof DryholdError && error.code !== 'store-unwritable') return error;
  const cause = error instanceof DryholdError ? error.cause : error;
  const named = cause instanceof Error && cause.message.includes(`${basename(path)}.${process.pid}.part`);
  if (error instanceof DryholdError && !named) return error;
  const problem = machineProblem(cause);
  return problem === undefined ? error : new DryholdError('output-unwritable', { path, problem }, error);
}
