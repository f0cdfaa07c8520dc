import fc from 'fast-check';
import { holdLadder } from '../../src/facts/hold-ladder.ts';
import type { Facts } from '../../src/records/tables/facts.ts';
import { anyChargeAndRun } from './any-charge-and-run.ts';

const pressure = fc.double({ min: 0.01, max: 100000, noNaN: true });
const none = fc.constant(0);
const size = fc.oneof(none, pressure);
const seconds = fc.double({ min: 0, max: 100000, noNaN: true });
const volume = fc.oneof(none, fc.double({ min: 0.01, max: 500, noNaN: true }));
const temperature = fc.double({ min: 200, max: 350, noNaN: true });
const rate = fc.oneof(none, fc.double({ min: 1e-6, max: 100, noNaN: true }));
const loss = fc.oneof(none, fc.double({ min: 1e-9, max: 1e6, noNaN: true }));

const someHoldLadder = fc.array(pressure, { minLength: 3, maxLength: 9 }).map((vacuumPa) =>
  JSON.stringify(
    holdLadder(
      {
        gauge: null,
        elapsedS: Float64Array.from(vacuumPa, (__, index) => index),
        vacuumPa: Float64Array.from(vacuumPa),
      },
      0,
      vacuumPa.length - 1,
      undefined,
    ),
  ),
);

const someRiseLadder = fc
  .array(fc.tuple(seconds, pressure), { maxLength: 9 })
  .map((rungs) => JSON.stringify(rungs.toSorted(([a], [b]) => a - b)));

const log = fc.record(
  { vacuum_readings: fc.nat(5000), gauge_accuracy_ratio: fc.double({ min: 0, max: 1, noNaN: true }) },
  { requiredKeys: [] },
);

const pull = fc.record(
  {
    deepest_pa: pressure,
    hold_s: seconds,
    hold_ladder: someHoldLadder,
    marked: fc.boolean(),
    turns_up: fc.boolean(),
    pumped_until: fc.constantFrom('isolation' as const, 'break' as const, 'log-end' as const),
    pull_down_s: seconds,
    pull_down_predicted_s: seconds,
    first_seen_pa: size,
    pumped_from_pa: size,
    pumped_to_pa: size,
    pump_rate_per_s: rate,
    predicted_pump_rate_per_s: rate,
    prediction_problem: fc.constantFrom(
      'no-pump' as const,
      'no-hose' as const,
      'no-volume' as const,
      'not-seen' as const,
    ),
    stall_start_s: seconds,
    stall_s: seconds,
    stall_pa: size,
    stall_at: fc.constantFrom('vapour' as const, 'ice' as const),
    line_k: temperature,
    line_low_k: temperature,
    water_vapour_pa: size,
    tested_volume_l: volume,
    tested_volume_low_l: volume,
    tested_volume_high_l: volume,
    tested_volume_basis: fc.constantFrom('tested' as const, 'circuit' as const, 'estimated' as const),
  },
  { requiredKeys: ['hold_s'] },
);

const isolation = fc.record(
  {
    isolation_start_s: seconds,
    isolation_end_s: seconds,
    isolation_pa: pressure,
    isolation_end_pa: pressure,
    rise_pa: fc.double({ min: -1000, max: 100000, noNaN: true }),
    isolation_start_low_s: seconds,
    isolation_start_high_s: seconds,
    isolation_basis: fc.constantFrom('pressure' as const, 'mark' as const),
    isolation_jump_pa: size,
    isolation_over: fc.boolean(),
    rise_ladder: someRiseLadder,
  },
  { requiredKeys: ['isolation_start_s', 'isolation_end_s', 'isolation_pa', 'isolation_end_pa', 'rise_pa'] },
);

const rise = fc.record(
  {
    rise_shape: fc.constantFrom(
      'dry' as const,
      'leak' as const,
      'moisture' as const,
      'mixed' as const,
      'settling' as const,
      'undecided' as const,
      'absent' as const,
    ),
    rise_model: fc.constantFrom('flat' as const, 'leak' as const, 'saturating' as const, 'leak-tail' as const),
    leak_pa_per_s: rate,
    leak_low_pa_per_s: rate,
    leak_high_pa_per_s: rate,
    leak_rise_pa: size,
    leak_rise_low_pa: size,
    leak_rise_high_pa: size,
    vapour_rise_pa: size,
    settling_rise_pa: size,
    plateau_pa: size,
    plateau_low_pa: size,
    plateau_high_pa: size,
    rise_time_constant_s: seconds,
    rise_noise_ratio: fc.double({ min: 0, max: 1, noNaN: true }),
    smallest_leak_seen_pa_per_s: rate,
    smallest_rise_seen_pa_per_s: rate,
    leak_loss_low_kg_per_year: loss,
    leak_loss_high_kg_per_year: loss,
    smallest_loss_low_kg_per_year: loss,
    smallest_loss_high_kg_per_year: loss,
  },
  { requiredKeys: [] },
);

// Whole pascals and kelvins: most doubles of a range lie next to zero.
const testPressure = fc.oneof(none, fc.integer({ min: 101325, max: 5000000 }));
const drop = fc.integer({ min: -200000, max: 400000 });

const pressureLog = fc.record(
  {
    pressure_readings: fc.nat(5000),
    atmosphere_pa: fc.double({ min: 47000, max: 107000, noNaN: true }),
    highest_test_pa: testPressure,
    pressure_stages: fc.nat(9),
    pressure_problem: fc.constantFrom(
      'not-opened' as const,
      'too-few-readings' as const,
      'never-held' as const,
      'gap' as const,
    ),
  },
  { requiredKeys: ['pressure_readings'] },
);

const pressureHold = fc.record(
  {
    pressure_hold_start_s: seconds,
    pressure_hold_end_s: seconds,
    pressure_settled_s: seconds,
    held_test_pa: testPressure,
    end_test_pa: testPressure,
    read_drop_pa: drop,
    explaining_cooling_k: fc.integer({ min: -300, max: 300 }),
  },
  {
    requiredKeys: [
      'pressure_hold_start_s',
      'pressure_hold_end_s',
      'pressure_settled_s',
      'held_test_pa',
      'end_test_pa',
      'read_drop_pa',
    ],
  },
);

const lineTemperatures = fc.record({
  held_line_k: temperature,
  end_line_k: temperature,
  coldest_line_k: temperature,
  warmest_line_k: temperature,
  expected_end_test_pa: testPressure,
});

const correctedDrop = fc.record({
  pressure_drop_pa: drop,
  pressure_drop_low_pa: drop,
  pressure_drop_high_pa: drop,
  pressure_drop_sure_pa: drop,
  smallest_drop_seen_pa: testPressure,
});

const testLoss = fc.record({
  test_loss_low_kg_per_year: loss,
  test_loss_high_kg_per_year: loss,
  smallest_test_loss_low_kg_per_year: loss,
  smallest_test_loss_high_kg_per_year: loss,
});

/** Facts of a standing pressure test, its log there or not, and the temperature of the pipe there or not. */
export const anyPressureTest: fc.Arbitrary<Partial<Facts>> = fc
  .tuple(
    fc.option(pressureLog, { nil: {} }),
    fc.option(pressureHold, { nil: {} }),
    fc.option(lineTemperatures, { nil: {} }),
    fc.option(correctedDrop, { nil: {} }),
    fc.option(testLoss, { nil: {} }),
  )
  .map((parts) => Object.assign({}, ...parts) as Partial<Facts>);

/** Facts as any mixture could be: each there or not; what jobFacts always gives together comes together. */
export const anyFacts: fc.Arbitrary<Partial<Facts>> = fc
  .tuple(
    log,
    fc.option(fc.constantFrom('compound-gauge' as const, 'too-few-readings' as const), { nil: undefined }),
    pull,
    fc.option(isolation, { nil: undefined }),
    rise,
    anyPressureTest,
    anyChargeAndRun,
  )
  .map(([someLog, problem, somePull, someIsolation, someRise, somePressureTest, someChargeAndRun]) => ({
    ...someLog,
    ...(problem === undefined || someLog.vacuum_readings === undefined ? {} : { vacuum_problem: problem }),
    ...somePull,
    ...someIsolation,
    ...someRise,
    ...somePressureTest,
    ...someChargeAndRun,
  }));
