import { choice, identifier, instant, text } from '../column.ts';
import { type RowOf, table } from '../table.ts';

export const reviews = table('reviews', 'verdict of a person on a finding', ['job_id', 'check_id'], {
  job_id: identifier('The job'),
  check_id: identifier('The check'),
  verdict: choice(['confirmed', 'excused', 'wrong'], 'What the person says of the finding'),
  reviewed_by: identifier('Who').optional(),
  reviewed_at: instant('When').optional(),
  reason: text('Why').optional(),
});

export type Review = RowOf<typeof reviews>;
