import { date, flag, identifier } from '../column.ts';
import { type RowOf, table } from '../table.ts';

export const inspections = table('inspections', 'leak inspection of a system', ['system_id', 'inspected_on'], {
  system_id: identifier('The system'),
  inspected_on: date('Day'),
  leak_found: flag('Whether a leak was found').optional(),
});

export type Inspection = RowOf<typeof inspections>;
