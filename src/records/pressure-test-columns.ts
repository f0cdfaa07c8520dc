import { choice, flag, integer, quantity } from './column.ts';

/** Columns of the facts that tell of the standing pressure test, and of it together with the rise test. */
export const pressureTestColumns = {
  pressure_readings: integer('How many readings of the standing pressure test there are', 0, 1e12).optional(),
  pressure_problem: choice(
    ['not-opened', 'too-few-readings', 'below-air', 'never-held', 'cut', 'gap', 'other-unit', 'time-unit'],
    'Why the standing pressure test carries no judgement',
  ).optional(),
  atmosphere_pa: quantity('Pa', 'Pressure of the air at the site, from which gauges count', 30000, 115000).optional(),
  highest_test_pa: quantity('Pa', 'Highest pressure of the test, absolute', 0, 30000000.0).optional(),
  pressure_stages: integer('How many holds the test has, the judged one included', 0, 1000).optional(),
  pressure_hold_start_s: quantity('s', 'When the judged hold began', -1000000000.0, 1000000000.0).optional(),
  pressure_hold_end_s: quantity('s', 'When it ended', -1000000000.0, 1000000000.0).optional(),
  pressure_settled_s: quantity(
    's',
    'From when on it is judged: the settling after filling is left out',
    -1000000000.0,
    1000000000.0,
  ).optional(),
  held_test_pa: quantity('Pa', 'Pressure from when on it is judged, absolute', 0, 30000000.0).optional(),
  end_test_pa: quantity('Pa', 'Pressure at the end of the hold, absolute', 0, 30000000.0).optional(),
  held_line_k: quantity('K', 'Temperature of the pipe from when on it is judged', 150, 400).optional(),
  end_line_k: quantity('K', 'Temperature of the pipe at the end of the hold', 150, 400).optional(),
  coldest_line_k: quantity('K', 'Coldest temperature of the pipe in the judged hold', 150, 400).optional(),
  warmest_line_k: quantity('K', 'Warmest temperature of the pipe in the judged hold', 150, 400).optional(),
  expected_end_test_pa: quantity(
    'Pa',
    'What a tight system would show at the end of the hold by the temperature of the pipe, absolute',
    0,
    30000000.0,
  ).optional(),
  read_drop_pa: quantity('Pa', 'Drop as read, not corrected for temperature', -30000000.0, 30000000.0).optional(),
  explaining_cooling_k: quantity(
    'K',
    'By how much the gas would have to have cooled to explain the drop as read',
    -300,
    300,
  ).optional(),
  pressure_drop_low_pa: quantity(
    'Pa',
    'Lower end of the 95 % interval of the corrected drop',
    -30000000.0,
    30000000.0,
  ).optional(),
  pressure_drop_high_pa: quantity('Pa', 'Upper end of that interval', -30000000.0, 30000000.0).optional(),
  pressure_drop_sure_pa: quantity(
    'Pa',
    'What the corrected drop is above, sure to 99.9 % by the model',
    -30000000.0,
    30000000.0,
  ).optional(),
  smallest_drop_seen_pa: quantity(
    'Pa',
    'Smallest drop that this test would have told for one, four times of five',
    0,
    30000000.0,
  ).optional(),
  test_leak_pa_m3_per_s: quantity(
    'Pa·m³/s',
    'Nitrogen lost at test pressure, by the corrected drop in the tested volume',
    -1000000.0,
    1000000.0,
  ).optional(),
  smallest_test_leak_seen_pa_m3_per_s: quantity(
    'Pa·m³/s',
    'The same of the smallest drop that would have been told',
    0,
    1000000.0,
  ).optional(),
  test_loss_low_kg_per_year: quantity(
    'kg/year',
    'What the leak of the least drop of the interval would lose, standing at 70 °F: low end of the band',
    0,
    1e9,
  ).optional(),
  test_loss_high_kg_per_year: quantity(
    'kg/year',
    'The same of the most drop of the interval: high end',
    0,
    1e9,
  ).optional(),
  smallest_test_loss_low_kg_per_year: quantity(
    'kg/year',
    'What the smallest leak that the pressure test would have told would lose, standing at 70 °F: low end of the band',
    0,
    1e9,
  ).optional(),
  smallest_test_loss_high_kg_per_year: quantity('kg/year', 'High end of that band', 0, 1e9).optional(),
  // Pressure test and rise test together.
  ruled_out_low_kg_per_year: quantity(
    'kg/year',
    'Pressure test and rise test together, as far as there are both, rule out a leak that would lose more: low end of the band',
    0,
    1e9,
  ).optional(),
  ruled_out_high_kg_per_year: quantity('kg/year', 'High end of that band', 0, 1e9).optional(),
  ruled_out_by: choice(
    ['pressure-test', 'rise-test', 'both'],
    'Which test rules out most: the pressure test or the rise test whatever the opening is like, or each for one sort of opening',
  ).optional(),
  tests_disagree: flag('Whether one of the two tests shows a leak that the other rules out').optional(),
};
