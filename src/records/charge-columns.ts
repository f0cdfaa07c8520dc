import { choice, flag, integer, quantity, ratio, text } from './column.ts';

const mass = (description: string) => quantity('kg', description, -5000, 50000);

/** Columns of the facts that tell of the charge, beside those that other programs may rely on. */
export const chargeColumns = {
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
      'scale-unit',
      'absurd-mass',
      'absurd-residual',
      'absurd-adder',
    ],
    'What is missing for a charge target or a deviation from it',
  ).optional(),
  charge_wanted_kg: mass('What this job should have put in').optional(),
  charge_deviation_low_kg: mass('Lower end of the 95 % interval of the deviation').optional(),
  charge_deviation_high_kg: mass('Upper end of that interval').optional(),
  charged_from: choice(
    ['scale', 'weighings', 'record'],
    'Whether the series of the scale, weighings or the figure of the record tell what went in',
  ).optional(),
  drawn_kg: mass('What left the cylinder, hose residual included').optional(),
  entered_drop_kg: mass('The same by what was written down, where the series of the scale tells it too').optional(),
  hose_residual_kg: quantity('kg', 'Hose residual that was taken off', 0, 50).optional(),
  hose_residual_low_kg: quantity('kg', 'Least it may be, 95 %', 0, 50).optional(),
  hose_residual_high_kg: quantity('kg', 'Most it may be, 95 %', 0, 50).optional(),
  hose_residual_basis: choice(
    ['recorded', 'computed', 'assumed'],
    'Whether the record gives the residual, or the hoses to compute it from, or neither',
  ).optional(),
  line_beyond_m: quantity('m', 'Length of line beyond what the factory charge covers, all lines', 0, 50000).optional(),
  line_covered_m: quantity('m', 'Length of line that the factory charge covers, all lines', 0, 50000).optional(),
  line_within_m: quantity('m', 'Length of line that lies within what the factory charge covers', 0, 50000).optional(),
  line_charge_kg: mass('What that length wants').optional(),
  line_adder_kg_per_m: quantity(
    'kg/m',
    'Adder that was used, the mean over the lengths beyond, or over all where none is',
    -1,
    5,
  ).optional(),
  line_adder_basis: choice(
    ['maker', 'computed'],
    'Whether the record gives that adder, or bore and density',
  ).optional(),
  recorded_adder_kg_per_m: quantity('kg/m', 'Adder on record of the line that differs most', -1, 5).optional(),
  computed_adder_kg_per_m: quantity(
    'kg/m',
    'What a metre of that line holds: liquid line full at 100 °F',
    0,
    5,
  ).optional(),
  adder_ratio: ratio(
    'Recorded adder as a ratio of the computed one, of the line that differs most',
    -1000,
    1000,
  ).optional(),
  slip_probability_ratio: ratio('Probability of the slip that is named, or of the likeliest', 0, 1).optional(),
  slip_charge_kg: mass('What this slip would have put in').optional(),
  slip_of: text('Which other size or refrigerant, or which way round').optional(),
  charge_capacity_ratio: ratio(
    'Cooling capacity at that charge as a ratio of what the right one gives, by the published model',
    0,
    2,
  ).optional(),
  charge_cop_ratio: ratio('Efficiency in cooling, the same way', 0, 2).optional(),
  weighed_named: flag('Whether weighings or their cylinders name a refrigerant').optional(),
  weighed_refrigerant: text(
    'Refrigerant of the weighings or their cylinders, where it is not that of the record',
  ).optional(),
  // The series of the scale.
  scale_readings: integer('How many readings of the scale there are', 0, 1e12).optional(),
  scale_problem: choice(
    ['too-few-readings', 'cut', 'no-flow', 'recovered', 'unit', 'time-unit'],
    'Why the series of the scale does not tell what went in',
  ).optional(),
  scale_drop_kg: mass('What flowed off the scale in all').optional(),
  scale_drop_low_kg: mass('Lower end of its 95 % interval').optional(),
  scale_drop_high_kg: mass('Upper end of that interval').optional(),
  scale_pulls: text(
    'Shifts in mid-charge that were no flow and so small that who reads the display misses them, as JSON [kg]',
  ).optional(),
  scale_doubtful: text(
    'Steps of it that came so suddenly that a hand or a hose may have made them, as JSON [kg]',
  ).optional(),
  scale_flow_start_s: quantity('s', 'When the first flow began', -1e9, 1e9).optional(),
  scale_flow_end_s: quantity('s', 'When the last flow ended', -1e9, 1e9).optional(),
  scale_shifts: integer(
    'How often the scale moved without a flow: bumped, zeroed, hose or cylinder moved',
    0,
    1e9,
  ).optional(),
  scale_largest_shift_kg: quantity('kg', 'The most it moved so', 0, 50000).optional(),
  scale_step_kg: quantity('kg', 'Step in which the scale shows', 0, 10).optional(),
  scale_noise_kg: quantity('kg', 'Standard deviation of its readings on an unchanged load', 0, 100).optional(),
};
