import fc from 'fast-check';
import type { Facts } from '../../src/records/tables/facts.ts';
import { runPatterns } from '../../src/facts/run-test/pattern-signs.ts';
import { chargeColumns } from '../../src/records/charge-columns.ts';
import { runTestColumns } from '../../src/records/run-test-columns.ts';
import { columnMeta } from '../../src/records/column.ts';

// To the gram: no scale reads less.
const mass = fc.integer({ min: -10000, max: 50000 }).map((grams) => grams / 1000);
const amount = fc.integer({ min: 0, max: 50000 }).map((grams) => grams / 1000);
const share = fc.integer({ min: 0, max: 100 }).map((percent) => percent / 100);
const difference = fc.integer({ min: -500, max: 500 }).map((tenths) => tenths / 10);
const kelvin = fc.integer({ min: 220, max: 380 });
const pascal = fc.integer({ min: 0, max: 5_000_000 });
const seconds = fc.integer({ min: 0, max: 100_000 });
const adder = fc.integer({ min: 0, max: 2000 }).map((tenths) => tenths / 10_000);

/** One of the words of a column. */
function word(column: Parameters<typeof columnMeta>[0]) {
  return fc.constantFrom(...(columnMeta(column).words ?? []));
}

const charged = fc.record({
  charge_target_kg: mass,
  charged_kg: mass,
  charge_wanted_kg: mass,
  charge_deviation_kg: mass,
  charge_deviation_low_kg: mass,
  charge_deviation_high_kg: mass,
  drawn_kg: amount,
  charged_from: word(chargeColumns.charged_from),
});

const residual = fc.record({
  hose_residual_kg: amount,
  hose_residual_low_kg: amount,
  hose_residual_high_kg: amount,
  hose_residual_basis: word(chargeColumns.hose_residual_basis),
});

const lines = fc.record({
  line_beyond_m: amount,
  line_covered_m: amount,
  line_charge_kg: mass,
  line_adder_kg_per_m: adder,
  line_adder_basis: word(chargeColumns.line_adder_basis),
});

const adders = fc.record({ recorded_adder_kg_per_m: adder, computed_adder_kg_per_m: adder, adder_ratio: difference });

const slip = fc.record({
  charge_slip: fc.constantFrom(
    'line-ignored',
    'from-zero',
    'other-line-size',
    'other-refrigerant',
    'ounce-tenth-pound',
    'kg-pound',
    'hose-residual',
    'factory-again',
  ),
  slip_probability_ratio: share,
  slip_charge_kg: amount,
  slip_of: fc.constant('R-32'),
});

const scale = fc.record(
  {
    scale_readings: fc.nat(5000),
    scale_problem: word(chargeColumns.scale_problem),
    scale_drop_kg: amount,
    scale_drop_low_kg: amount,
    scale_drop_high_kg: amount,
    scale_shifts: fc.nat(9),
    scale_largest_shift_kg: amount,
    scale_step_kg: amount,
    entered_drop_kg: amount,
  },
  { requiredKeys: ['scale_readings'] },
);

const run = fc.record(
  {
    run_readings: fc.nat(5000),
    run_problem: word(runTestColumns.run_problem),
    run_s: seconds,
    run_since_change_s: seconds,
    steady_start_s: seconds,
    steady_end_s: seconds,
    metering_kind: word(runTestColumns.metering_kind),
    run_speed: word(runTestColumns.run_speed),
    liquid_line_phase: word(runTestColumns.liquid_line_phase),
    run_outdoor_k: kelvin,
    run_indoor_k: kelvin,
    run_indoor_wet_bulb_k: kelvin,
    run_dew_k: kelvin,
    run_bubble_k: kelvin,
    run_suction_line_k: kelvin,
    run_liquid_line_k: kelvin,
    superheat_k: difference,
    superheat_low_k: difference,
    superheat_high_k: difference,
    target_superheat_k: difference,
    subcooling_k: difference,
    subcooling_low_k: difference,
    subcooling_high_k: difference,
    target_subcooling_k: difference,
  },
  { requiredKeys: ['run_readings'] },
);

const pattern = fc.record({
  run_pattern: fc.constantFrom(...runPatterns, 'unclear'),
  run_pattern_ratio: share,
  run_patterns: fc.constantFrom('{"none":0.6,"overcharge":0.4}', '{"restriction":1}'),
  run_signs: fc.constantFrom('[]', '[{"reading":"subcooling","off":-3,"for":"low-charge"}]'),
});

const refrigerant = fc.record(
  {
    rest_pa: pascal,
    rest_expected_pa: pascal,
    rest_deviation: difference,
    refrigerant_seen: word(runTestColumns.refrigerant_seen),
    likely_refrigerant: fc.constant('R-22'),
    likely_refrigerant_ratio: share,
    air_ratio: share,
    refrigerants_alike: fc.constant('R-32, R-452B'),
    weighed_refrigerant: fc.constant('R-22'),
  },
  { requiredKeys: [] },
);

const compressor = fc.record(
  { compressor_readings: fc.nat(5000), vacuum_run_s: seconds, vacuum_run_pa: pascal.map((pa) => Math.min(pa, 2e5)) },
  { requiredKeys: ['compressor_readings', 'vacuum_run_s'] },
);

const problem = fc.record({ charge_problem: word(chargeColumns.charge_problem) });
const or = (part: fc.Arbitrary<object>) => fc.option(part, { nil: {} });

/** Facts of a charge and a run test, each part of them there or not. */
export const anyChargeAndRun: fc.Arbitrary<Partial<Facts>> = fc
  .tuple(
    ...[charged, residual, lines, adders, slip, scale, problem, run, pattern, refrigerant, compressor].map((part) =>
      or(part),
    ),
  )
  .map((parts) => Object.assign({}, ...parts) as Partial<Facts>);
