import type { Table } from '../records/table.ts';

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
