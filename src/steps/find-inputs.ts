import { existsSync, globSync, statSync } from 'node:fs';
import { basename, extname, join, relative, resolve, sep } from 'node:path';
import { DryholdError } from '../errors.ts';
import type { Table } from '../records/table.ts';
import { inputTables } from '../records/tables.ts';
import { fileKindOf, fileKinds } from '../sources/file-kinds.ts';
import type { FileKind } from '../sources/source-file.ts';
import { type FoundPath, filesBelow, noPlainFile, pathsIn } from './files-below.ts';

/** A file to take in. `table` is absent where a source map says what the file holds. */
export interface InputFile {
  readonly path: string;
  /** What the file is called in `sources`, `rejects` and messages: by what was named on the command line. */
  readonly name: string;
  readonly kind: FileKind;
  readonly table?: Table;
  /** Why it is not to be read. */
  readonly problem?: string;
}

const tables = new Map(inputTables.map((table) => [table.name, table]));
const knownExtensions = fileKinds.flatMap((kind) => (kind.inBundles === false ? [] : kind.extensions));

/** A path, and what it is called in `sources`, `rejects` and messages. */
export interface NamedPath {
  readonly path: string;
  readonly name: string;
}

/**
 * The paths that command-line arguments mean: each itself, called by its last part, or what its glob matches, called by what
 * the glob left open. Of two that would be called the same more of the path is told.
 *
 * @throws DryholdError `file-not-found`
 */
export function namedPaths(given: readonly string[]): NamedPath[] {
  const found = given.flatMap(expanded);
  const twice = new Set(found.map(({ name }) => name).filter((name, index, all) => all.indexOf(name) !== index));
  return found.map((each) => (twice.has(each.name) ? { ...each, name: longerName(each, found) } : each));
}

function expanded(argument: string): NamedPath[] {
  if (existsSync(argument)) return [{ path: argument, name: basename(resolve(argument)) }];
  const found = /[*?[{]/.test(argument) ? globSync(argument).sort() : [];
  if (found.length === 0) throw new DryholdError('file-not-found', { path: argument });
  const parts = argument.split(/[\\/]/);
  const fixed = parts
    .slice(
      0,
      Math.min(
        parts.findIndex((part) => /[*?[{]/.test(part)),
        parts.length - 1,
      ),
    )
    .join('/');
  const from = fixed === '' && argument.startsWith('/') ? '/' : fixed || '.';
  return found.map((path) => ({ path, name: relative(from, path) }));
}

/** The shortest end of a path that no other path has. */
function longerName({ path }: NamedPath, all: readonly NamedPath[]): string {
  const parts = (of: string) => resolve(of).split(sep);
  const own = parts(path);
  for (let length = 1; length < own.length; length += 1) {
    const end = own.slice(-length).join(sep);
    if (all.filter((other) => parts(other.path).slice(-length).join(sep) === end).length === 1) return end;
  }
  return path;
}

/**
 * The files of one bundle: a folder with one file, or one folder of files, per table; or a single such file.
 *
 * @throws DryholdError `nothing-to-read`
 */
export function bundleFiles(path: string, top = basename(path)): InputFile[] {
  const expected = `files or folders named after tables (${[...tables.keys()].join(', ')}) ending in ${knownExtensions.join(', ')}`;
  if (!statSync(path).isDirectory()) {
    const file = tableFile(path, top, stem(path), problemOf(path));
    if (file === undefined) throw new DryholdError('nothing-to-read', { path, expected });
    return [file];
  }
  const files = pathsIn(path).flatMap(({ name, isFolder, problem }) => {
    const full = join(path, name);
    if (!isFolder) return tableFile(full, join(top, name), stem(name), problem) ?? [];
    const table = tables.get(name);
    if (table === undefined) return [];
    if (problem !== undefined) return { path: full, name: join(top, name), kind: fileKinds[0], table, problem };
    return pathsIn(full, path)
      .filter((inner) => !inner.isFolder)
      .flatMap((inner) => tableFile(join(full, inner.name), join(top, name, inner.name), name, inner.problem) ?? []);
  });
  if (files.length === 0) throw new DryholdError('nothing-to-read', { path, expected });
  const order = [...tables.keys()];
  return files.sort(
    (a, b) => order.indexOf(a.table?.name ?? '') - order.indexOf(b.table?.name ?? '') || (a.name < b.name ? -1 : 1),
  );
}

/** Whether something in a folder makes a bundle of it: it is named after a table. */
export function isTable({ name, isFolder }: FoundPath): boolean {
  return isFolder ? tables.has(name) : tableFile(name, name, stem(name)) !== undefined;
}

/** Whether a file of this name could hold a table, if it were named after one. */
export function couldBeTable(name: string): boolean {
  const kind = fileKindOf(withoutPacking(name));
  return kind !== undefined && kind.inBundles !== false;
}

/** The files that source maps may read: the file itself, or every file below a folder but for hidden ones. */
export function mappedFiles(path: string, top = basename(path)): InputFile[] {
  if (!statSync(path).isDirectory()) return [mappedInput(path, top, problemOf(path))];
  const files = filesBelow(path).filter(({ name }) => !name.split(sep).some((part) => part.startsWith('.')));
  if (files.length === 0) throw new DryholdError('nothing-to-read', { path, expected: 'files' });
  return files.map(({ name, problem }) => mappedInput(join(path, name), join(top, name), problem));
}

/** A file as a map sees it; a packed one is of the kind that its name within says. */
export function mappedInput(path: string, name: string, problem?: string): InputFile {
  const kind = fileKindOf(withoutPacking(name)) ?? fileKinds[0];
  return { path, name, kind, ...(problem === undefined ? {} : { problem }) };
}

/** Why something that was named is not to be read. */
function problemOf(path: string): string | undefined {
  return statSync(path).isFile() ? undefined : noPlainFile;
}

function tableFile(path: string, name: string, tableName: string, problem?: string): InputFile | undefined {
  const kind = fileKindOf(withoutPacking(path));
  const table = tables.get(tableName);
  return kind === undefined || kind.inBundles === false || table === undefined
    ? undefined
    : { path, name, kind, table, ...(problem === undefined ? {} : { problem }) };
}

function stem(path: string): string {
  const name = withoutPacking(basename(path));
  return basename(name, extname(name));
}

/** A name without the `.gz` of what is packed. */
function withoutPacking(name: string): string {
  return name.replace(/\.gz$/i, '');
}
