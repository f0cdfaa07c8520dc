import { choice, date, identifier, quantity, ratio } from '../column.ts';
import { type RowOf, table } from '../table.ts';

export const cylinders = table('cylinders', 'refrigerant cylinder', ['cylinder_id'], {
  cylinder_id: identifier('The cylinder'),
  refrigerant: identifier('ASHRAE 34 designation of what is in it').optional(),
  acquired_on: date('Day it came in').optional(),
  net_kg: quantity('kg', 'Refrigerant in it when it came', 0, 5000).optional(),
  cost: ratio('What it cost, in the currency of the shop', 0, 1000000000.0).optional(),
  closed_on: date('Day it was closed').optional(),
  closing_kg: quantity('kg', 'Refrigerant in it when it was closed', 0, 5000).optional(),
  kind: choice(['supply', 'recovery'], 'What it is for').optional(),
  tare_kg: quantity('kg', 'Weight empty', 0, 5000).optional(),
  capacity_kg: quantity('kg', 'Refrigerant it may hold', 0, 5000).optional(),
});

export type Cylinder = RowOf<typeof cylinders>;
