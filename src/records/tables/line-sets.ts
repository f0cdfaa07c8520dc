import { identifier, quantity } from '../column.ts';
import { type RowOf, table } from '../table.ts';

export const lineSets = table('line_sets', 'line set of a job with several', ['job_id', 'line_set_id'], {
  job_id: identifier('The job'),
  line_set_id: identifier('The line set'),
  line_length_m: quantity('m', 'Length of the line set, one way', 0, 500).optional(),
  factory_line_m: quantity('m', 'Line length that the factory charge covers', 0, 200).optional(),
  liquid_line_od_mm: quantity('mm', 'Outer diameter of the liquid line', 3, 100).optional(),
  suction_line_od_mm: quantity('mm', 'Outer diameter of the suction line', 3, 150).optional(),
  line_adder_kg_per_m: quantity(
    'kg/m',
    'Refrigerant that each metre beyond the covered length wants, as the maker prints it; negative only where the maker states a deduction',
    -1,
    5,
  ).optional(),
});

export type LineSet = RowOf<typeof lineSets>;
