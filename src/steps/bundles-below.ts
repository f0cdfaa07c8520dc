import { statSync } from 'node:fs';
import { extname, join } from 'node:path';
import { holdsStore } from '../store/catalogue-path.ts';
import { pathsIn } from './files-below.ts';
import { couldBeTable, isTable, type NamedPath } from './find-inputs.ts';

/** Bundles of a folder, and what in it belongs to none. */
export interface FoundBundles {
  readonly bundles: readonly NamedPath[];
  /** Files that could hold a table, in folders where nothing is named after one. */
  readonly leftAside: readonly NamedPath[];
}

/**
 * The bundles that a path means: itself, and every folder or archive below it that holds one, as where each day's export comes in a folder of
 * its own. Hidden folders, folders that are links, and stores are not entered.
 *
 * @returns the path itself where there is no bundle below it
 */
export function bundlesBelow(given: NamedPath): FoundBundles {
  if (!statSync(given.path).isDirectory()) return { bundles: [given], leftAside: [] };
  const bundles: NamedPath[] = [];
  const leftAside: NamedPath[] = [];
  const enter = ({ path, name }: NamedPath): void => {
    const entries = pathsIn(path, given.path).filter((entry) => !entry.name.startsWith('.'));
    const inner = (entry: { name: string }): NamedPath => ({
      path: join(path, entry.name),
      name: join(name, entry.name),
    });
    const isBundle = entries.some(isTable);
    if (isBundle) bundles.push({ path, name });
    for (const entry of entries) {
      if (entry.problem !== undefined || isTable(entry)) continue;
      if (entry.isFolder) {
        if (entry.isLink !== true && !holdsStore(join(path, entry.name))) enter(inner(entry));
      } else if (extname(entry.name).toLowerCase() === '.zip') bundles.push(inner(entry));
      else if (couldBeTable(entry.name) && !isBundle) leftAside.push(inner(entry));
    }
  };
  enter(given);
  return bundles.length === 0 ? { bundles: [given], leftAside: [] } : { bundles, leftAside };
}
