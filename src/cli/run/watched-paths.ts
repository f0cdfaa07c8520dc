import { existsSync, globSync } from 'node:fs';
import { isAbsolute, relative, resolve, sep } from 'node:path';
import { realPath } from '../../steps/real-path.ts';

/**
 * Whether all that paths and globs mean lies in watched folders: only then does a watch tell of each of its files.
 *
 * @param folder what the paths count from
 */
export function areWatched(paths: readonly string[], watch: readonly string[], folder: string): boolean {
  const watched = watch.map((name) => realPath(resolve(folder, name)));
  return paths
    .flatMap((path) => (existsSync(resolve(folder, path)) ? path : [path, ...globSync(path, { cwd: folder })]))
    .every((path) => watched.some((inner) => liesIn(realPath(resolve(folder, path)), inner)));
}

/** Whether a path is a folder or lies in it; both without links. */
function liesIn(path: string, folder: string): boolean {
  const within = relative(folder, path);
  return within !== '..' && !within.startsWith(`..${sep}`) && !isAbsolute(within);
}
