import { existsSync, globSync, readdirSync, statSync } from 'node:fs';
import { basename, extname, join, relative } from 'node:path';
import { DryholdError } from '../errors.ts';
import type { Table } from '../records/table.ts';
import { inputTables } from '../records/tables.ts';
import { fileKindOf, fileKinds } from '../sources/file-kinds.ts';
import type { FileKind } from '../sources/source-file.ts';

/** A file to take in. `table` is absent where a source map says what the file holds. */
export interface InputFile {
  readonly path: string;
  /** What the file is called in `sources`, `rejects` and messages: relative to what was named on the command line. */
  readonly name: string;
  readonly kind: FileKind;
  readonly table?: Table;
}

const tables = new Map(inputTables.map((table) => [table.name, table]));
const knownExtensions = fileKinds.flatMap((kind) => kind.extensions);

/** The paths that a command-line argument means: itself, or what its glob matches. */
export function expandPath(argument: string): string[] {
  if (existsSync(argument)) return [argument];
  const found = /[*?[{]/.test(argument) ? globSync(argument).sort() : [];
  if (found.length === 0) throw new DryholdError('file-not-found', { path: argument });
  return found;
}

/**
 * The files of one bundle: a folder with one file, or one folder of files, per table; or a single such file.
 *
 * @throws DryholdError `nothing-to-read`
 */
export function bundleFiles(path: string): InputFile[] {
  const expected = `files or folders named after tables (${[...tables.keys()].join(', ')}) ending in ${knownExtensions.join(', ')}`;
  if (!statSync(path).isDirectory()) {
    const file = tableFile(path, basename(path), stem(path));
    if (file === undefined) throw new DryholdError('nothing-to-read', { path, expected });
    return [file];
  }
  const top = basename(path);
  const files = readdirSync(path, { withFileTypes: true }).flatMap((entry) => {
    const full = join(path, entry.name);
    if (entry.isFile()) return tableFile(full, join(top, entry.name), stem(entry.name)) ?? [];
    if (!entry.isDirectory() || !tables.has(entry.name)) return [];
    return readdirSync(full, { withFileTypes: true })
      .filter((inner) => inner.isFile())
      .flatMap((inner) => tableFile(join(full, inner.name), join(top, entry.name, inner.name), entry.name) ?? []);
  });
  if (files.length === 0) throw new DryholdError('nothing-to-read', { path, expected });
  const order = [...tables.keys()];
  return files.sort(
    (a, b) => order.indexOf(a.table?.name ?? '') - order.indexOf(b.table?.name ?? '') || (a.name < b.name ? -1 : 1),
  );
}

/** The files that a source map may read: the file itself, or every text file below a folder. */
export function mappedFiles(path: string): InputFile[] {
  if (!statSync(path).isDirectory()) {
    return [{ path, name: basename(path), kind: fileKindOf(path) ?? fileKinds[0] }];
  }
  const files = readdirSync(path, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .filter((file) => fileKindOf(file) !== undefined)
    .sort();
  if (files.length === 0)
    throw new DryholdError('nothing-to-read', { path, expected: `files ending in ${knownExtensions.join(', ')}` });
  return files.map((file) => ({
    path: file,
    name: join(basename(path), relative(path, file)),
    kind: fileKindOf(file) as FileKind,
  }));
}

function tableFile(path: string, name: string, tableName: string): InputFile | undefined {
  const kind = fileKindOf(path);
  const table = tables.get(tableName);
  return kind === undefined || table === undefined ? undefined : { path, name, kind, table };
}

function stem(path: string): string {
  return basename(path, extname(path));
}
