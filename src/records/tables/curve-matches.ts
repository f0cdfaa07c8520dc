import { choice, identifier, integer, quantity, ratio } from '../column.ts';
import { matchedColumns } from '../recording-columns.ts';
import { type RowOf, table } from '../table.ts';

const at = (description: string) => quantity('s', description, -1e9, 1e9);

export const curveMatches = table(
  'curve_matches',
  'pressure curve that stands in two jobs',
  ['job_id', 'other_job_id', 'column_name', 'gauge', 'other_gauge'],
  {
    job_id: identifier('The job that comes first by its id'),
    other_job_id: identifier('The other one'),
    column_name: choice(matchedColumns, 'The column of the readings of the first job'),
    gauge: identifier('The gauge, where the first job has several').optional(),
    other_column_name: choice(matchedColumns, 'The column of the readings of the other job'),
    other_gauge: identifier('The gauge, where the other job has several').optional(),
    matched_readings: integer('Readings of the stretch that both share', 0, 1e12),
    share_ratio: ratio('Share of the shorter curve that the stretch is', 0, 1),
    from_s: at('When that stretch begins, in the log of the first job'),
    to_s: at('When it ends'),
    shift_s: at('How much later the same reading stands in the log of the other job'),
    scale_ratio: ratio('Pressure of the other job over pressure of the first one', 0, 1e9),
    scatter_ratio: ratio('Standard deviation of that ratio from reading to reading', 0, 1e9),
    sigma: ratio('How far the likeness exceeds chance, in its standard deviations', 0, 1e9),
  },
);

export type CurveMatch = RowOf<typeof curveMatches>;
