import { identifier, instant, quantity, ratio, text } from '../column.ts';
import { type RowOf, table } from '../table.ts';

export const callbacks = table('callbacks', 'callback', ['callback_id'], {
  callback_id: identifier('The callback'),
  system_id: identifier('The system').optional(),
  job_id: identifier('The job it is laid to, where the source says').optional(),
  reported_at: instant('When the customer rang'),
  reason: text('What the customer said').optional(),
  cause_found: text('What was found').optional(),
  refrigerant_added_kg: quantity('kg', 'Refrigerant added', 0, 5000).optional(),
  cost: ratio('What it cost, in the currency of the shop', 0, 1000000000.0).optional(),
});

export type Callback = RowOf<typeof callbacks>;
