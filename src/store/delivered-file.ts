import type { Table } from '../records/table.ts';

/** A file of the delivery and what became of its rows, for one table. */
export interface DeliveredFile {
  readonly file: string;
  readonly sha256: string;
  readonly mapSha256: string;
  readonly table: Table;
  rowsRead: number;
  rowsRejected: number;
  rowsRepeated: number;
}
