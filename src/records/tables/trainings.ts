import { date, identifier } from '../column.ts';
import { type RowOf, table } from '../table.ts';

export const trainings = table('trainings', 'training that a technician attended', ['training_id'], {
  training_id: identifier('The training'),
  technician_id: identifier('The technician').optional(),
  held_on: date('Day').optional(),
  topic: identifier('A check id or group').optional(),
});

export type Training = RowOf<typeof trainings>;
