import { identifier, integer, text } from '../column.ts';
import { type RowOf, table } from '../table.ts';

export const rejects = table('rejects', 'refused input row or file', ['file', 'line', 'table_name', 'reason_id'], {
  file: identifier('The file'),
  line: integer('Line or row number, from 1; 0 means the whole file', 0, 1e15),
  table_name: identifier('The table it was meant for').optional(),
  reason_id: identifier('Why'),
  detail: text('What exactly, and in which column').optional(),
  raw: text('The row as it stands in the file, cut at 2,000 characters').optional(),
});

export type Reject = RowOf<typeof rejects>;
