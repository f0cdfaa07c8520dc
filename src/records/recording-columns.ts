import { choice, flag, identifier, integer, quantity, ratio, text } from './column.ts';
import { runColumns } from './run-columns.ts';

const at = (description: string) => quantity('s', description, -1e9, 1e9);
const lasting = (description: string) => quantity('s', description, 0, 1e9);

/** Columns of the readings that are looked at for how they were recorded. */
export const recordedColumns = ['vacuum_pa', 'test_pressure_pa', 'line_c', 'scale_kg', ...runColumns] as const;

/** Columns whose curves are held beside those of other jobs. */
export const matchedColumns = ['vacuum_pa', 'test_pressure_pa'] as const;

export type MatchedColumn = (typeof matchedColumns)[number];

export type RecordedColumn = (typeof recordedColumns)[number];

/** Stretches of a job in which something is judged. */
export const recordedPhases = ['pull-down', 'hold', 'rise test', 'pressure test', 'charging', 'run'] as const;

export type RecordedPhase = (typeof recordedPhases)[number];

/** What shows that a column is in another unit than its name says. */
export const unitSigns = [
  'begins-at-air',
  'gauge-on-record',
  'over-limit',
  'too-deep',
  'too-low',
  'vented',
  'rest-gauge',
  'rest-factor',
  'too-warm',
  'air-and-line',
  'power',
  'times',
] as const;

/** Columns of the facts that tell how the readings were recorded. */
export const recordingColumns = {
  recorded_columns: integer('How many columns of the readings were looked at', 0, 100).optional(),
  // Gaps.
  gap_phases: text('Stretches of the job that were looked at for gaps').optional(),
  gap_count: integer('How many gaps fall into the stretch that loses most by them', 0, 1e9).optional(),
  gap_phase: choice(recordedPhases, 'The stretch that loses most').optional(),
  gap_longest_s: lasting('Longest of its gaps').optional(),
  gap_start_s: at('When that gap began').optional(),
  gap_usual_s: lasting('Usual time between readings beside it').optional(),
  gap_phase_s: lasting('How long that stretch of the job was').optional(),
  gap_hidden_ratio: ratio('Share of that stretch that lies in gaps', 0, 1).optional(),
  // The clock.
  clock_jump: choice(['forward', 'back'], 'Which way the clock jumped').optional(),
  clock_sign: choice(
    ['course', 'length', 'interleaved'],
    'Whether the readings go on as if no time had passed, whether only its length tells, or whether two courses interleave',
  ).optional(),
  clock_column: choice(recordedColumns, 'The column that tells').optional(),
  clock_jump_s: lasting('By how much it jumped').optional(),
  clock_jump_start_s: at('When, by the clock itself').optional(),
  // Sensors.
  stuck_column: choice(recordedColumns, 'The column that repeats one value').optional(),
  stuck_sign: choice(
    ['noise', 'caught-up', 'all-along', 'start', 'ceiling', 'floor'],
    'What shows that it was stuck, or clipped',
  ).optional(),
  stuck_readings: integer('How many readings in a row it repeats', 0, 1e12).optional(),
  stuck_s: lasting('For how long').optional(),
  stuck_start_s: at('From when on').optional(),
  // Units.
  unit_column: choice([...recordedColumns, 'elapsed_s'], 'The column that looks like another unit').optional(),
  unit_sign: choice(unitSigns, 'What shows it').optional(),
  unit_said: text('The unit that the column says').optional(),
  unit_likely: text('The unit that it looks like').optional(),
  unit_also: text('Another explanation that remains').optional(),
  unit_factor: ratio('How many of the unit said make one of the unit it looks like; 1 for a shift', 0, 1e9).optional(),
  unit_sure: flag('Whether nothing else explains it').optional(),
  // Limits of use.
  range_column: choice(recordedColumns, 'The column that goes beyond what is plausible').optional(),
  range_readings: integer('How many of its readings do', 0, 1e12).optional(),
  range_worst: ratio('The farthest of them, in the unit of its column', -1e9, 1e9).optional(),
  // The same curve in another job.
  pressure_curves: integer('Pressure curves of the job', 0, 1000).optional(),
  compared_curves: integer(
    'Those of them that have a face of their own, so that others can be told from them',
    0,
    1000,
  ).optional(),
  match_jobs: integer('Other jobs in which a curve of this one stands', 0, 1e9).optional(),
  match_job_id: identifier('The one of them that shares most readings').optional(),
  match_column: choice(matchedColumns, 'The column of this job that it shares').optional(),
  match_readings: integer('How many readings it shares', 0, 1e12).optional(),
  match_share_ratio: ratio('Share of the shorter of both curves', 0, 1).optional(),
  match_start_s: at('When the shared stretch begins, in the log of this job').optional(),
  match_s: lasting('How long it is').optional(),
  match_shift_s: at('How much later the same reading stands in the log of the other job').optional(),
  match_scale_ratio: ratio('Pressure of the other job over pressure of this one', 0, 1e9).optional(),
  match_scatter_ratio: ratio('Standard deviation of that ratio from reading to reading', 0, 1e9).optional(),
};
