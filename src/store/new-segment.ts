import { closeSync, fsyncSync, openSync, renameSync } from 'node:fs';
import { join } from 'node:path';
import type { Store } from './store.ts';

/** A segment file that the caller's transaction is about to make known. */
export interface NewSegment {
  readonly id: number;
  readonly file: string;
  readonly path: string;
}

/** Gives a staged Parquet file the next segment number and its name, once its bytes are on the disk. */
export async function newSegment(store: Store, staged: string): Promise<NewSegment> {
  const [{ id }] = await store.rows<{ id: number }>("SELECT nextval('segment_numbers') AS id");
  const file = `${String(id).padStart(8, '0')}.parquet`;
  const path = join(store.segmentsFolder, file);
  const handle = openSync(staged, 'r+');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
  renameSync(staged, path);
  return { id, file, path };
}
