import fc from 'fast-check';
import { holdLadder } from '../../src/facts/hold-ladder.ts';
import type { Facts } from '../../src/records/tables/facts.ts';

const pressure = fc.double({ min: 0.01, max: 100000, noNaN: true });
const none = fc.constant(0);
const size = fc.oneof(none, pressure);
const seconds = fc.double({ min: 0, max: 100000, noNaN: true });
// To the gram: no scale reads less.
const mass = fc.integer({ min: -10000, max: 50000 }).map((grams) => grams / 1000);
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

const charge = fc.record({
  charge_target_kg: mass,
  charged_kg: mass,
  charge_wanted_kg: mass,
  charge_deviation_kg: mass,
});

/** Facts as any mixture could be: each there or not; what jobFacts always gives together comes together. */
export const anyFacts: fc.Arbitrary<Partial<Facts>> = fc
  .tuple(
    log,
    fc.option(fc.constantFrom('compound-gauge' as const, 'too-few-readings' as const), { nil: undefined }),
    pull,
    fc.option(isolation, { nil: undefined }),
    rise,
    fc.option(charge, { nil: undefined }),
    fc.option(fc.constantFrom('no-weigh-in' as const, 'no-adder' as const, 'top-up' as const), { nil: undefined }),
  )
  .map(([someLog, problem, somePull, someIsolation, someRise, someCharge, chargeProblem]) => ({
    ...someLog,
    ...(problem === undefined || someLog.vacuum_readings === undefined ? {} : { vacuum_problem: problem }),
    ...somePull,
    ...someIsolation,
    ...someRise,
    ...someCharge,
    ...(chargeProblem === undefined ? {} : { charge_problem: chargeProblem }),
  }));
