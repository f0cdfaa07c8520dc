import { realpathSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';

/**
 * Where a path leads once all links are followed, so that two ways to one file are seen to be one. Of what is not there, or
 * no longer, the folders that are there are followed.
 */
export function realPath(path: string): string {
  const full = resolve(path);
  try {
    return realpathSync.native(full);
  } catch {
    const above = dirname(full);
    return above === full ? full : join(realPath(above), basename(full));
  }
}
