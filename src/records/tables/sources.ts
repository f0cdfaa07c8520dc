import { identifier, integer } from '../column.ts';
import { type RowOf, table } from '../table.ts';

export const sources = table('sources', 'input file and table', ['file', 'sha256', 'table_name'], {
  file: identifier('The file'),
  sha256: identifier('Its SHA-256'),
  table_name: identifier('The table it feeds'),
  rows_read: integer('Rows read', 0, 1e15),
  rows_kept: integer('Rows kept', 0, 1e15),
  rows_rejected: integer('Rows refused', 0, 1e15),
  rows_repeated: integer('Rows that the store already had', 0, 1e15),
});

export type Source = RowOf<typeof sources>;
