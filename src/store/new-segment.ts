import { renameSync } from 'node:fs';
import { join } from 'node:path';
import type { Store } from './store.ts';
import { keepOnDisk } from './whole-file.ts';

/** A segment file that the caller's transaction is about to make known. */
export interface NewSegment {
  readonly id: number;
  readonly file: string;
  readonly path: string;
}

/** Gives a staged Parquet file the next segment number and its name; its bytes are on the disk before, its name after. */
export async function newSegment(store: Store, staged: string): Promise<NewSegment> {
  const [{ id }] = await store.rows<{ id: number }>("SELECT nextval('segment_numbers') AS id");
  const file = `${String(id).padStart(8, '0')}.parquet`;
  const path = join(store.segmentsFolder, file);
  keepOnDisk(staged);
  renameSync(staged, path);
  keepOnDisk(store.segmentsFolder);
  return { id, file, path };
}
