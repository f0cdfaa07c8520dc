import { existsSync, linkSync, readdirSync, renameSync, rmSync } from 'node:fs';
import { basename, dirname } from 'node:path';
import { DuckDBInstance } from '@duckdb/node-api';
import { DryholdError } from '../errors.ts';
import { migrate } from './migrations.ts';
import { keepOnDisk } from './whole-file.ts';

let made = 0;

/**
 * Makes an empty catalogue where there is none: aside, then under its name in one step, since a half-written one opens no
 * more. Of several that are made at once the first stays.
 *
 * @param segmentsFolder where readings would be that an empty catalogue knows nothing of, and that a sweep would remove
 * @throws DryholdError `store-unreadable` where the catalogue of a store with readings is gone
 */
export async function makeCatalogue(path: string, segmentsFolder: string): Promise<void> {
  const segments = readdirSync(segmentsFolder).filter((name) => /^\d+\.parquet$/.test(name));
  // Looked at last: where another run has made a segment by now, it has made the catalogue before.
  if (existsSync(path)) return;
  if (segments.length > 0) {
    const problem = `${basename(path)} is gone, and readings are still there (files: ${segments.length}); put it back, or name another folder`;
    throw new DryholdError('store-unreadable', { path: dirname(path), problem });
  }
  made += 1;
  const aside = `${path}.new-${process.pid}-${made}`;
  try {
    const instance = await DuckDBInstance.create(aside, { autoinstall_known_extensions: 'false' });
    try {
      const connection = await instance.connect();
      await migrate(connection);
      await connection.run('CHECKPOINT');
      connection.closeSync();
    } finally {
      instance.closeSync();
    }
    place(aside, path);
    keepOnDisk(dirname(path));
  } catch (error) {
    // Another run was sooner, and may have swept ours away.
    if (!existsSync(path)) throw error;
  } finally {
    for (const file of [aside, `${aside}.wal`]) rmSync(file, { force: true });
  }
}

/** Whether a name in the store's folder is that of a catalogue that was being made, by a run that did not come to its end. */
export function isUnfinishedCatalogue(name: string, path: string): boolean {
  return name.startsWith(`${basename(path)}.new-`);
}

/** A link fails where the name is taken; drives that have no links are given the file by renaming. */
function place(aside: string, path: string): void {
  try {
    linkSync(aside, path);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (!['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK'].includes(code ?? '') || existsSync(path)) throw error;
    renameSync(aside, path);
  }
}
