import { choice, flag, identifier, integer, quantity, ratio, text } from '../column.ts';
import { type RowOf, table } from '../table.ts';

export const facts = table('facts', 'job, its latest revision', ['job_id'], {
  job_id: identifier('The job'),
  pull_down_start_s: quantity(
    's',
    'When the last pull began, since the log began',
    -1000000000.0,
    1000000000.0,
  ).optional(),
  isolation_start_s: quantity(
    's',
    'When the system was isolated, of the last pull',
    -1000000000.0,
    1000000000.0,
  ).optional(),
  isolation_end_s: quantity('s', 'When that isolation ended', -1000000000.0, 1000000000.0).optional(),
  isolation_start_low_s: quantity('s', 'Earliest isolation start, 95 %', -1000000000.0, 1000000000.0).optional(),
  isolation_start_high_s: quantity('s', 'Latest isolation start, 95 %', -1000000000.0, 1000000000.0).optional(),
  pulls: integer('How many pulls', 0, 1000).optional(),
  deepest_pa: quantity('Pa', 'Lowest pressure reached, absolute', -30000000.0, 30000000.0).optional(),
  hold_s: quantity(
    's',
    'Time at or below the vacuum target with the pump connected',
    -1000000000.0,
    1000000000.0,
  ).optional(),
  rise_pa: quantity('Pa', 'Rise from isolation to its end', -30000000.0, 30000000.0).optional(),
  rise_shape: choice(
    ['dry', 'leak', 'moisture', 'mixed', 'settling', 'undecided', 'absent'],
    'Shape of the rise',
  ).optional(),
  leak_pa_per_s: quantity('Pa/s', 'Steady rise', -1000000.0, 1000000.0).optional(),
  leak_low_pa_per_s: quantity('Pa/s', 'Lower end of its 95 % interval', -1000000.0, 1000000.0).optional(),
  leak_high_pa_per_s: quantity('Pa/s', 'Upper end of its 95 % interval', -1000000.0, 1000000.0).optional(),
  plateau_pa: quantity('Pa', 'Pressure at which the rise levels off, absolute', -30000000.0, 30000000.0).optional(),
  smallest_leak_seen_pa_per_s: quantity(
    'Pa/s',
    'Smallest leak that this rise test could have seen',
    -1000000.0,
    1000000.0,
  ).optional(),
  pressure_drop_pa: quantity(
    'Pa',
    'Drop of the standing pressure test, corrected for temperature',
    -30000000.0,
    30000000.0,
  ).optional(),
  charge_target_kg: quantity('kg', 'Charge that the whole system wants', -5000, 50000).optional(),
  charged_kg: quantity('kg', 'What this job put in, net of hose residual', -5000, 50000).optional(),
  charge_deviation_kg: quantity('kg', 'What was put in less what this job should have put in', -5000, 50000).optional(),
  charge_slip: choice(
    [
      'line-ignored',
      'from-zero',
      'other-line-size',
      'other-refrigerant',
      'ounce-tenth-pound',
      'kg-pound',
      'hose-residual',
      'factory-again',
    ],
    'The slip that the deviation looks like',
  ).optional(),
  superheat_k: quantity('K', 'Superheat over the last steady window', -100, 100).optional(),
  subcooling_k: quantity('K', 'Subcooling over the last steady window', -100, 100).optional(),
  // What follows serves the checks; other programs should not rely on it.
  vacuum_readings: integer('How many vacuum readings there are', 0, 1e12).optional(),
  vacuum_gauge: identifier('The gauge that was judged, where the job has several').optional(),
  vacuum_problem: choice(['compound-gauge', 'too-few-readings'], 'Why the vacuum log carries no judgement').optional(),
  gauge_accuracy_ratio: ratio('Accuracy of that gauge as a ratio of the reading', 0, 1).optional(),
  marked: flag('Whether the source marks phases').optional(),
  pumped_until: choice(['isolation', 'break', 'log-end'], 'What ended the last pumped stretch').optional(),
  turns_up: flag(
    'Whether the pressure turns up a little at the end of the pumping, with no isolation marked',
  ).optional(),
  isolation_basis: choice(
    ['pressure', 'mark'],
    'Whether the pressure shows the isolation or only a mark tells',
  ).optional(),
  isolation_pa: quantity('Pa', 'Pressure at isolation, absolute', 0, 200000).optional(),
  isolation_end_pa: quantity('Pa', 'Pressure at the end of the isolation, absolute', 0, 200000).optional(),
  hold_ladder: text(
    'Time at or below each of a ladder of pressures before the pumped stretch ended, as JSON',
  ).optional(),
  charge_problem: choice(
    [
      'no-weigh-in',
      'no-factory-charge',
      'no-line-length',
      'no-covered-length',
      'no-adder',
      'no-charge-basis',
      'top-up',
      'no-charging-work',
    ],
    'What is missing for a charge target or a deviation from it',
  ).optional(),
  charge_wanted_kg: quantity('kg', 'What this job should have put in', -5000, 50000).optional(),
  hose_residual_kg: quantity('kg', 'Hose residual that was taken off; absent where none is recorded', 0, 10).optional(),
});

export type Facts = RowOf<typeof facts>;
