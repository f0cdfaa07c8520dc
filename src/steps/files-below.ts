import { type Dirent, readdirSync, realpathSync, statSync } from 'node:fs';
import { join, sep } from 'node:path';
import { DryholdError } from '../errors.ts';

/** What lies in a folder, by its path from there. */
export interface FoundPath {
  readonly name: string;
  readonly isFolder: boolean;
  /** Whether it is a link to what it stands for. */
  readonly isLink?: boolean;
  /** Why it is not to be read. */
  readonly problem?: string;
}

/** Why what is no file is not read: it may have no end, or wait for ever. */
export const noPlainFile = 'it is a pipe, a socket or a device, and no file';
const leadsOut = 'it is a link that leads out of the folder; name what it leads to, if that is meant';
const leadsNowhere = 'it is a link that leads nowhere';

/**
 * What lies in a folder that somebody named, sorted. Links are followed within it. Who names a folder means what is in it:
 * a link that leads out of it may come from whoever packed the folder, and lead to anything.
 *
 * @throws DryholdError `file-unreadable`
 */
export function pathsIn(folder: string, root = folder): FoundPath[] {
  const inside = realpathSync(root);
  return entriesOf(folder)
    .map((entry) => (entry.isSymbolicLink() ? linked(join(folder, entry.name), entry.name, inside) : plain(entry)))
    .sort((a, b) => (a.name < b.name ? -1 : 1));
}

/** The files below a folder. Folders that are links within it are not entered: their files are found where they are. */
export function filesBelow(folder: string): FoundPath[] {
  const walk = (below: string): FoundPath[] =>
    pathsIn(join(folder, below), folder).flatMap((found) => {
      const name = join(below, found.name);
      if (!found.isFolder || found.problem !== undefined) return [{ ...found, name }];
      return found.isLink === true ? [] : walk(name);
    });
  return walk('');
}

function entriesOf(folder: string): Dirent[] {
  try {
    return readdirSync(folder, { withFileTypes: true });
  } catch (error) {
    throw new DryholdError('file-unreadable', { path: folder, problem: (error as Error).message }, error);
  }
}

function plain(entry: Dirent): FoundPath {
  const { name } = entry;
  if (entry.isDirectory()) return { name, isFolder: true };
  return { name, isFolder: false, ...(entry.isFile() ? {} : { problem: noPlainFile }) };
}

function linked(path: string, name: string, inside: string): FoundPath {
  let target: string;
  try {
    target = realpathSync(path);
  } catch {
    return { name, isFolder: false, problem: leadsNowhere };
  }
  const found = statSync(target);
  const isFolder = found.isDirectory();
  const isInside = target === inside || target.startsWith(inside.endsWith(sep) ? inside : inside + sep);
  if (!isInside) return { name, isFolder, isLink: true, problem: leadsOut };
  return { name, isFolder, isLink: true, ...(isFolder || found.isFile() ? {} : { problem: noPlainFile }) };
}
