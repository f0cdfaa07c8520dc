import { statSync } from 'node:fs';
import { extname, join } from 'node:path';
import { holdsStore } from '../store/catalogue-path.ts';
import { type FoundPath, pathsIn } from './files-below.ts';
import { couldBeTable, isTable, type NamedPath } from './find-inputs.ts';

/** Bundles of a folder, and what in it belongs to none. */
export interface FoundBundles {
  readonly bundles: readonly NamedPath[];
  /** Files that could hold a table, in folders where nothing is named after one. */
  readonly leftAside: readonly NamedPath[];
  /** Folders and archives that are not entered, and why. */
  readonly refused: readonly (NamedPath & { readonly problem: string })[];
}

/**
 * The bundles that a path means: itself, and every folder or archive below it that holds one, as where each day's export comes in a folder of
 * its own. Hidden folders, folders that are links, and stores are not entered.
 *
 * @returns the path itself where there is no bundle below it
 */
export function bundlesBelow(given: NamedPath): FoundBundles {
  const found = {
    bundles: [] as NamedPath[],
    leftAside: [] as NamedPath[],
    refused: [] as FoundBundles['refused'][number][],
  };
  if (!statSync(given.path).isDirectory()) return { ...found, bundles: [given] };
  const enter = ({ path, name }: NamedPath): void => {
    const entries = pathsIn(path, given.path).filter((entry) => !entry.name.startsWith('.'));
    const tables = new Set(entries.filter((entry) => holdsTable(entry, path, given.path)));
    if (tables.size > 0) found.bundles.push({ path, name });
    for (const entry of entries) {
      const inner = { path: join(path, entry.name), name: join(name, entry.name) };
      const isArchive = !entry.isFolder && extname(entry.name).toLowerCase() === '.zip';
      if (tables.has(entry)) continue;
      if (entry.problem !== undefined) {
        if (entry.isFolder || isArchive) found.refused.push({ ...inner, problem: entry.problem });
      } else if (entry.isFolder) {
        if (entry.isLink !== true && !holdsStore(inner.path)) enter(inner);
      } else if (isArchive) found.bundles.push(inner);
      else if (couldBeTable(entry.name) && tables.size === 0) found.leftAside.push(inner);
    }
  };
  enter(given);
  return found.bundles.length + found.refused.length === 0 ? { ...found, bundles: [given], leftAside: [] } : found;
}

/** Whether something in a folder is a table's file, or a table's folder with a file in it; one that cannot be read is told of as such. */
function holdsTable(entry: FoundPath, folder: string, root: string): boolean {
  if (!isTable(entry)) return false;
  if (!entry.isFolder || entry.problem !== undefined) return true;
  return pathsIn(join(folder, entry.name), root).some(({ name, isFolder }) => !isFolder && couldBeTable(name));
}
