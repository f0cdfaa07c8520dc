import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { DryholdError } from '../../errors.ts';
import { keepOnDisk } from '../../store/whole-file.ts';
import { fileSum } from './file-sum.ts';

/** Files by name, each with the SHA-256 of its bytes. */
export type FileSums = Readonly<Record<string, string>>;

/** The digests of files that were written to a folder; they are on the disk then. */
export async function sumsOf(folder: string, names: readonly string[]): Promise<FileSums> {
  const sums: Record<string, string> = {};
  for (const name of names) {
    keepOnDisk(join(folder, name));
    sums[name] = await fileSum(join(folder, name));
  }
  return sums;
}

/**
 * Makes sure that files are what was written.
 *
 * @param remedy what to do where one is not
 * @throws DryholdError `file-unreadable`
 */
export async function assertWhole(
  folder: string,
  names: readonly string[],
  sums: FileSums,
  remedy: string,
): Promise<void> {
  for (const name of names) {
    const path = join(folder, name);
    if (!existsSync(path)) throw new DryholdError('file-unreadable', { path, problem: `no such file; ${remedy}` });
    if ((await fileSum(path)) !== sums[name])
      throw new DryholdError('file-unreadable', {
        path,
        problem: `it is not what was written, so it was damaged or changed since; ${remedy}`,
      });
  }
}
