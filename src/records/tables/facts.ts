import { choice, flag, identifier, integer, quantity, ratio, text } from '../column.ts';
import { chargeColumns } from '../charge-columns.ts';
import { pressureTestColumns } from '../pressure-test-columns.ts';
import { recordingColumns } from '../recording-columns.ts';
import { runTestColumns } from '../run-test-columns.ts';
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
  isolation_start_low_s: quantity(
    's',
    'Earliest isolation start, at least 95 %',
    -1000000000.0,
    1000000000.0,
  ).optional(),
  isolation_start_high_s: quantity(
    's',
    'Latest isolation start, at least 95 %',
    -1000000000.0,
    1000000000.0,
  ).optional(),
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
    'Smallest leak that this rise test could have told from moisture and outgassing, four times of five',
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
  vacuum_problem: choice(
    ['compound-gauge', 'too-few-readings', 'other-unit', 'time-unit'],
    'Why the vacuum log carries no judgement',
  ).optional(),
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
  // The pull-down beside what pump, hose and cores predict.
  pull_down_s: quantity(
    's',
    "From the start of the last pull until at or below the job's target, 500 µm where it records none",
    0,
    1000000000.0,
  ).optional(),
  pull_down_predicted_s: quantity(
    's',
    'The same for dry gas through the recorded pump, hose and cores; what takes much longer boils off or leaks',
    0,
    1e12,
  ).optional(),
  pumped_from_pa: quantity('Pa', 'Pressure from which the pumping speed was measured, absolute', 0, 200000).optional(),
  pumped_to_pa: quantity('Pa', 'Pressure down to which the pumping speed was measured, absolute', 0, 200000).optional(),
  pump_rate_per_s: quantity('1/s', 'Measured pumping speed per volume between these two', 0, 1000000.0).optional(),
  predicted_pump_rate_per_s: quantity(
    '1/s',
    'The same for dry gas through the recorded pump, hose and cores',
    0,
    1000000.0,
  ).optional(),
  prediction_problem: choice(
    ['no-pump', 'no-hose', 'no-volume', 'not-seen'],
    'Why the pumping speed is not set against a prediction',
  ).optional(),
  tested_volume_l: quantity('L', 'Volume that the vacuum saw', 0, 20000).optional(),
  tested_volume_low_l: quantity('L', 'Least it may be, 95 %', 0, 20000).optional(),
  tested_volume_high_l: quantity('L', 'Most it may be, 95 %', 0, 20000).optional(),
  tested_volume_basis: choice(
    ['tested', 'circuit', 'estimated'],
    'Whether the record gives the tested volume, the whole circuit, or lines and capacity to estimate from',
  ).optional(),
  line_k: quantity('K', 'Mean temperature of the pipe while the vacuum was read', 150, 400).optional(),
  line_low_k: quantity('K', 'Coldest temperature of the pipe while the vacuum was read', 150, 400).optional(),
  water_vapour_pa: quantity('Pa', 'Vapour pressure of water at the coldest pipe temperature', 0, 200000).optional(),
  stall_start_s: quantity('s', 'When the longest stall of the last pull began', -1000000000.0, 1000000000.0).optional(),
  stall_s: quantity('s', 'How long the pressure stood where water boils off', 0, 1000000000.0).optional(),
  stall_pa: quantity('Pa', 'Pressure at which it stood, absolute', 0, 200000).optional(),
  stall_at: choice(
    ['vapour', 'ice'],
    'Whether near the vapour pressure of water at the pipe, or near its triple point',
  ).optional(),
  first_seen_pa: quantity(
    'Pa',
    'Highest pressure of the last pull that the gauge showed, absolute',
    0,
    200000,
  ).optional(),
  isolation_over: flag("Whether the pressure went above the gauge's range during the isolation").optional(),
  isolation_jump_pa: quantity('Pa', 'Jump of the pressure within seconds after valve-off', 0, 200000).optional(),
  // The fitted rise.
  rise_model: choice(
    ['flat', 'leak', 'saturating', 'tail', 'leak-saturating', 'leak-tail', 'saturating-tail', 'leak-saturating-tail'],
    'The parts that the fitted rise needs',
  ).optional(),
  leak_rise_pa: quantity('Pa', 'Part of the rise that is steady', 0, 200000).optional(),
  leak_rise_low_pa: quantity('Pa', 'Least it may be by the fit alone, 95 %', 0, 200000).optional(),
  leak_rise_high_pa: quantity('Pa', 'Most it may be by the fit alone, 95 %', 0, 200000).optional(),
  vapour_rise_pa: quantity('Pa', 'Part of the rise that slackens: moisture or outgassing', 0, 200000).optional(),
  settling_rise_pa: quantity('Pa', 'Part of the rise by equalisation after valve-off', 0, 200000).optional(),
  rise_time_constant_s: quantity('s', 'Time constant of the saturating part', 0, 1000000000.0).optional(),
  plateau_low_pa: quantity('Pa', 'Lower end of the 95 % interval of the plateau, absolute', 0, 200000).optional(),
  plateau_high_pa: quantity('Pa', 'Upper end of that interval, absolute', 0, 1000000.0).optional(),
  rise_noise_ratio: ratio('Noise of single readings during the isolation, relative', 0, 10).optional(),
  smallest_rise_seen_pa_per_s: quantity(
    'Pa/s',
    'Smallest steady rise that this test could have shown at all, of whatever it be',
    0,
    1000000.0,
  ).optional(),
  rise_ladder: text('Pressure at a ladder of times since valve-off, as JSON').optional(),
  leak_loss_low_kg_per_year: quantity(
    'kg/year',
    'What the least leak of the interval would lose, standing at 70 °F: low end of the band',
    0,
    1e9,
  ).optional(),
  leak_loss_high_kg_per_year: quantity(
    'kg/year',
    'The same of the most leak of the interval: high end',
    0,
    1e9,
  ).optional(),
  smallest_loss_low_kg_per_year: quantity(
    'kg/year',
    'What the smallest visible leak would lose, standing at 70 °F: low end of the band',
    0,
    1e9,
  ).optional(),
  smallest_loss_high_kg_per_year: quantity('kg/year', 'High end of that band', 0, 1e9).optional(),
  ...pressureTestColumns,
  ...chargeColumns,
  ...runTestColumns,
  ...recordingColumns,
});

export type Facts = RowOf<typeof facts>;
