import { choice, flag, integer, quantity, ratio, text } from './column.ts';

const at = (description: string) => quantity('s', description, -1e9, 1e9);
const kelvin = (description: string) => quantity('K', description, 150, 450);
const difference = (description: string) => quantity('K', description, -200, 200);
const pressure = (description: string) => quantity('Pa', description, 0, 3e7);

/** Why a run test may carry no judgement. */
export const runProblems = [
  'run-unseen',
  'not-running',
  'short',
  'not-steady',
  'heating',
  'no-suction',
  'swapped',
  'clamp-off',
  'below-dew',
  'off-curve',
  'pressure-unit',
  'other-unit',
  'time-unit',
  'air-absurd',
  'unknown-refrigerant',
] as const;

/** Columns of the facts that tell of the run test, beside those that other programs may rely on. */
export const runTestColumns = {
  run_readings: integer('How many readings of pressures or lines of the refrigerant there are', 0, 1e12).optional(),
  run_problem: choice(runProblems, 'Why the run test carries no judgement').optional(),
  run_start_s: at('When the last run began').optional(),
  run_s: quantity('s', 'How long it lasted', 0, 1e9).optional(),
  run_since_change_s: quantity('s', 'How long of it after the last change of the charge', 0, 1e9).optional(),
  steady_start_s: at('When its last steady window began').optional(),
  steady_end_s: at('When that window ended').optional(),
  run_suction_pa: pressure('Mean suction pressure over it, absolute').optional(),
  run_liquid_pa: pressure('Mean liquid pressure over it, absolute').optional(),
  run_dew_k: kelvin('Dew point at the suction pressure').optional(),
  run_bubble_k: kelvin('Bubble point at the liquid pressure').optional(),
  run_suction_line_k: kelvin('Mean temperature of the suction line').optional(),
  run_liquid_line_k: kelvin('Mean temperature of the liquid line').optional(),
  run_outdoor_k: kelvin('Mean outdoor temperature').optional(),
  run_indoor_k: kelvin('Mean temperature of the air that returns').optional(),
  run_indoor_wet_bulb_k: kelvin('Mean indoor wet bulb').optional(),
  run_split_k: difference('Air that returns less air supplied').optional(),
  run_compressor_w: quantity('W', 'Mean power taken by the compressor', 0, 5e6).optional(),
  superheat_low_k: difference('Lower end of the 95 % interval of the superheat').optional(),
  superheat_high_k: difference('Upper end of that interval').optional(),
  subcooling_low_k: difference('Lower end of the 95 % interval of the subcooling').optional(),
  subcooling_high_k: difference('Upper end of that interval').optional(),
  target_superheat_k: difference('Superheat that was to be shown').optional(),
  target_superheat_basis: choice(['record', 'table'], 'Whether the record asks for it, or the table').optional(),
  target_subcooling_k: difference('Subcooling that the record asks for').optional(),
  metering_kind: choice(['fixed', 'valve'], 'Whether a fixed orifice or a valve meters').optional(),
  run_speed: choice(['fixed', 'free'], 'Whether the compressor ran at a speed of its own choice').optional(),
  liquid_line_phase: choice(['liquid', 'two-phase'], 'Whether the liquid line carries liquid alone').optional(),
  // The pattern over all readings.
  run_pattern: choice(
    ['none', 'low-charge', 'overcharge', 'restriction', 'poor-airflow', 'non-condensables', 'unclear'],
    'What the readings together look like',
  ).optional(),
  run_pattern_ratio: ratio('Probability of that pattern', 0, 1).optional(),
  run_patterns: text('Probability of each pattern, as JSON').optional(),
  run_signs: text('What each reading speaks for and against, as JSON').optional(),
  // At rest, and which refrigerant it is.
  rest_pa: pressure('Pressure of the system at rest, absolute').optional(),
  rest_k: kelvin('Temperature by which it should stand').optional(),
  rest_expected_pa: pressure('Pressure that the refrigerant of the record would have there').optional(),
  rest_deviation: ratio('How many standard uncertainties the pressure is off', -1e6, 1e6).optional(),
  likely_refrigerant: text(
    'Refrigerant other than that of the record that pressures and temperatures fit best, where that one alone hardly fits',
  ).optional(),
  likely_refrigerant_ratio: ratio('Probability that it is not the one of the record', 0, 1).optional(),
  air_ratio: ratio('Probability that it is that one with air in it', 0, 1).optional(),
  rest_fits_none: flag('Whether the pressure at rest fits no refrigerant: without liquid it is lower').optional(),
  refrigerants_alike: text(
    'Refrigerants that pressures and temperatures do not tell from that of the record',
  ).optional(),
  refrigerant_seen: choice(
    ['rest', 'run', 'both'],
    'Where pressures and temperatures told of the refrigerant',
  ).optional(),
  // The compressor in vacuum.
  vacuum_run_s: quantity(
    's',
    'How long the compressor ran while the pressure was below that of the air',
    0,
    1e9,
  ).optional(),
  vacuum_run_pa: quantity('Pa', 'Lowest pressure at which it ran so, absolute', 0, 200000).optional(),
  compressor_readings: integer('How many readings of the compressor there are', 0, 1e12).optional(),
};
