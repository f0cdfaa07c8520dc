import type { Table } from '../records/table.ts';
import { literal } from './sql.ts';

/** A file of the delivery and what became of its rows, for one table. */
export interface DeliveredFile {
  readonly file: string;
  readonly sha256: string;
  readonly mapSha256: string;
  /** What its source map is called; empty for a file of a bundle. */
  readonly mapName: string;
  readonly table: Table;
  rowsRead: number;
  rowsRejected: number;
  rowsRepeated: number;
}

/** A relation of a delivery's files: their number, name, map and bytes. */
export function filesRelation(files: readonly DeliveredFile[]): string {
  const rows = files.map(({ file, mapName, sha256 }, number) =>
    [number, ...[file, mapName, sha256].map(literal)].join(', '),
  );
  return `(VALUES (${rows.join('), (')})) f(_file, file, map_name, sha256)`;
}
