import { date, flag, identifier, ratio } from '../column.ts';
import { type RowOf, table } from '../table.ts';

export const repairs = table('repairs', 'repair of a leak', ['repair_id'], {
  repair_id: identifier('The repair'),
  system_id: identifier('The system').optional(),
  leak_found_on: date('Day the leak was found').optional(),
  repaired_on: date('Day of repair').optional(),
  initial_verified_on: date('Day of the initial verification').optional(),
  followup_verified_on: date('Day of the follow-up verification').optional(),
  leak_id: identifier('The leak').optional(),
  cost: ratio('What it cost, in the currency of the shop', 0, 1000000000.0).optional(),
  normal_operation_on: date('Day of return to normal operation').optional(),
  shutdown: flag('Whether an industrial process had to be shut down').optional(),
});

export type Repair = RowOf<typeof repairs>;
