import { mkdirSync, mkdtempSync, readdirSync, rmdirSync, rmSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { DryholdError, machineProblem } from '../errors.ts';
import { isRunning, noteUnfinished } from './whole-file.ts';

/** A folder within that of an output, in which its files are written; names that begin with a dot are no bundle's. */
const asideName = '.unfinished-';

/** Whether something in the folder of an output is what a run had not finished. */
export function isAside(name: string): boolean {
  return name.startsWith(asideName);
}

/** Those that this process is writing in. */
const own = new Set<string>();

/**
 * Does work that writes several files aside, in a folder within the one where they belong, from which they are to be renamed once all of them are
 * whole. What a killed run left goes before, and what is left of this one after; what another run is writing there stays.
 *
 * @param outDir made where it is missing, and gone again where nothing came into it
 * @throws DryholdError `output-unwritable` where the engine could not write there
 */
export async function inAsideFolder<Result>(outDir: string, work: (aside: string) => Promise<Result>): Promise<Result> {
  const made = mkdirSync(outDir, { recursive: true });
  for (const name of readdirSync(outDir))
    if (isAbandoned(name)) rmSync(join(outDir, name), { recursive: true, force: true });
  const aside = mkdtempSync(join(outDir, `${asideName}${process.pid}-`));
  own.add(basename(aside));
  const written = noteUnfinished(aside);
  try {
    return await work(aside);
  } catch (error) {
    throw outputError(outDir, aside, error);
  } finally {
    rmSync(aside, { recursive: true, force: true });
    if (made !== undefined) removeEmpty(resolve(outDir), resolve(made));
    own.delete(basename(aside));
    written();
  }
}

/** Whether a run that is no more left it. A number of this process that is not its own folder's was an earlier process's. */
function isAbandoned(name: string): boolean {
  if (!isAside(name)) return false;
  const pid = Number(/^\d+(?=-)/.exec(name.slice(asideName.length))?.[0] ?? Number.NaN);
  if (pid === process.pid) return !own.has(name);
  return Number.isNaN(pid) || !isRunning(pid);
}

/** Removes a folder, and those above it up to one, as long as they are empty. */
function removeEmpty(folder: string, top: string): void {
  try {
    rmdirSync(folder);
  } catch {
    return;
  }
  if (folder !== top) removeEmpty(dirname(folder), top);
}

/** What the engine tells of a store that cannot be written, where it was about a file of ours. */
function outputError(path: string, aside: string, error: unknown): unknown {
  const cause = error instanceof DryholdError ? error.cause : error;
  if (!(cause instanceof Error) || !cause.message.includes(basename(aside))) return error;
  const problem = machineProblem(cause);
  return problem === undefined ? error : new DryholdError('output-unwritable', { path, problem }, error);
}
