import { readdirSync, statSync } from 'node:fs';
import { dirname, join, sep } from 'node:path';
import { z } from 'zod';
import { DryholdError } from '../../errors.ts';
import { resultTables } from '../../store/judged-results.ts';
import { statesName } from '../../store/shard-tables.ts';
import { fileSums, readDescription } from './shard-description.ts';

/** The file that says what results are. */
export const resultsName = 'judged.json';

/** The files that results have beside it. */
export const resultFiles: readonly string[] = [...resultTables, statesName].map((name) => `${name}.parquet`);

const resultsSchema = z.strictObject({
  format: z.int(),
  /** The method by which the facts were made. */
  method: z.int(),
  /** The policy that judged, and the digest of its limits and the checks' own. */
  policy: z.strictObject({ id: z.string(), digest: z.string() }),
  /** When the jobs of the shard began. */
  month: z.string(),
  jobs: z.int(),
  files: fileSums,
});

/** What results are of, and how they came about. */
export type ResultsDescription = z.infer<typeof resultsSchema>;

/** Reads what results are. */
export function readResultsDescription(folder: string): ResultsDescription {
  return readDescription(join(folder, resultsName), resultsSchema, 'the results of a shard');
}

/**
 * The folders of results that folders are or hold, each once, sorted.
 *
 * @throws DryholdError `file-not-found`, `nothing-to-read` where one has none
 */
export function resultFolders(given: readonly string[]): string[] {
  const found = given.flatMap((path) => {
    if (statSync(path, { throwIfNoEntry: false }) === undefined) throw new DryholdError('file-not-found', { path });
    const names = statSync(path).isDirectory() ? readdirSync(path, { recursive: true }).map(String) : [];
    const isWhole = (name: string) => !name.split(sep).some((part) => part.startsWith('.'));
    const folders = names
      .filter((name) => isWhole(name) && name.split(sep).at(-1) === resultsName)
      .map((name) => dirname(join(path, name)));
    if (folders.length > 0) return folders;
    throw new DryholdError('nothing-to-read', {
      path,
      expected: `folders that "dryhold judge --shard" wrote, each with ${resultsName}`,
    });
  });
  return [...new Set(found)].sort();
}
