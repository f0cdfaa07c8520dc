import { date, identifier } from '../column.ts';
import { type RowOf, table } from '../table.ts';

export const people = table('people', 'technician', ['technician_id'], {
  technician_id: identifier('The technician'),
  display_name: identifier('Name to show').optional(),
  hired_on: date('Day of hire').optional(),
});

export type Person = RowOf<typeof people>;
