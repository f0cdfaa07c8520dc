import { extname } from 'node:path';
import { csv } from './csv.ts';
import { json } from './json.ts';
import { ndjson } from './ndjson.ts';
import type { FileKind } from './source-file.ts';
import { xlsx } from './xlsx.ts';

/** Apache Parquet; the store's engine reads it. */
const parquet: FileKind = { id: 'parquet', extensions: ['.parquet'] };

/** Apache Arrow IPC, file or stream; the store's engine reads it. */
const arrow: FileKind = { id: 'arrow', extensions: ['.arrow', '.arrows', '.ipc', '.feather'] };

/** Every kind of file that can be taken in. */
export const fileKinds: readonly FileKind[] = [csv, ndjson, json, xlsx, parquet, arrow];

/** The kind of an id. */
export function fileKindOfId(id: FileKind['id']): FileKind {
  return fileKinds.find((kind) => kind.id === id) ?? csv;
}

/** The kind that a path's extension names, or undefined. */
export function fileKindOf(path: string): FileKind | undefined {
  const extension = extname(path).toLowerCase();
  return fileKinds.find((kind) => kind.extensions.includes(extension));
}
