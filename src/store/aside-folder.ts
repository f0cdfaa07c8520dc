import { mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { basename, join } from 'node:path';
import { DryholdError, machineProblem } from '../errors.ts';
import { noteUnfinished } from './whole-file.ts';

/** A folder within that of an output, in which its files are written; names that begin with a dot are no bundle's. */
const asideName = '.unfinished-';

/** Whether something in the folder of an output is what a run had not finished. */
export function isAside(name: string): boolean {
  return name.startsWith(asideName);
}

/**
 * Does work that writes several files aside, in a folder within the one where they belong, from which they are to be renamed once all of them are
 * whole. What a killed run left goes before, and what is left of this one after.
 *
 * @param outDir made where it is missing
 * @throws DryholdError `output-unwritable` where the engine could not write there
 */
export async function inAsideFolder<Result>(outDir: string, work: (aside: string) => Promise<Result>): Promise<Result> {
  mkdirSync(outDir, { recursive: true });
  for (const name of readdirSync(outDir))
    if (isAside(name)) rmSync(join(outDir, name), { recursive: true, force: true });
  const aside = mkdtempSync(join(outDir, asideName));
  const written = noteUnfinished(aside);
  try {
    return await work(aside);
  } catch (error) {
    throw outputError(outDir, aside, error);
  } finally {
    rmSync(aside, { recursive: true, force: true });
    written();
  }
}

/** What the engine tells of a store that cannot be written, where it was about a file of ours. */
function outputError(path: string, aside: string, error: unknown): unknown {
  const cause = error instanceof DryholdError ? error.cause : error;
  if (!(cause instanceof Error) || !cause.message.includes(basename(aside))) return error;
  const problem = machineProblem(cause);
  return problem === undefined ? error : new DryholdError('output-unwritable', { path, problem }, error);
}
