import { date, identifier } from '../column.ts';
import { type RowOf, table } from '../table.ts';

export const memberships = table(
  'memberships',
  'stay of a technician in a crew',
  ['technician_id', 'crew_id', 'from_on'],
  {
    technician_id: identifier('The technician'),
    crew_id: identifier('The crew'),
    from_on: date('First day'),
    to_on: date('Last day').optional(),
  },
);

export type Membership = RowOf<typeof memberships>;
