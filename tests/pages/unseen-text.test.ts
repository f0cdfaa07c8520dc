import { describe, expect, test } from 'vitest';
import { checks } from '../../src/checks/checks.ts';
import { unseenByCheck, unseenText } from '../../src/pages/unseen-text.ts';
import type { UnseenMaterial } from '../../src/pages/unseen/unseen-words.ts';
import type { Facts } from '../../src/records/tables/facts.ts';

const install = { work_type: 'install', charge_basis: 'pre-charged' } as const;

/** What is said of a check on facts; the record is that of a new unit where none is given. */
function textOf(
  check_id: string,
  outcome: 'pass' | 'suspect' | 'fail' | 'not-evaluated' | 'missing',
  facts: Partial<Facts> = {},
  { job, units = 'ip' }: Partial<Omit<UnseenMaterial, 'facts'>> = {},
): string {
  return unseenText({ check_id, outcome }, { facts, job, units });
}

test('every check has its words, and there are none for what is no check', () => {
  expect(Object.keys(unseenByCheck).toSorted()).toEqual(checks.map(({ id }) => id).toSorted());
});

describe.each(checks.map((check) => [check.id, check] as const))('%s', (id, { examples }) => {
  const judged = examples.filter(({ outcome }) => outcome === 'pass' || outcome === 'suspect' || outcome === 'fail');

  test('says what could not have been seen wherever it judged', () => {
    expect(judged.length).toBeGreaterThan(0);
    for (const { name, facts, outcome } of judged)
      for (const units of ['ip', 'si'] as const)
        for (const job of [undefined, install]) {
          const text = textOf(id, outcome, facts, { job, units });
          expect([name, text]).toEqual([name, expect.stringMatching(/^[a-z0-9].{15,}[^.;,]\.$/)]);
          expect(text.length).toBeLessThan(280);
          expect(text).not.toMatch(/undefined|NaN|Infinity|\bsafe|\bnull|;;|; ;/i);
        }
  });

  test('says nothing where nothing was judged', () => {
    for (const { facts } of examples)
      for (const outcome of ['not-evaluated', 'missing'] as const) expect(textOf(id, outcome, facts)).toBe('');
  });

  test('has no figure that is not in the facts', () => {
    // The length of a gap that counts as one is the check's own.
    for (const outcome of ['pass', 'suspect', 'fail'] as const)
      expect(textOf(id, outcome).replace('gaps of less than 30 s', '')).not.toMatch(/\d/);
  });
});

test('no two checks say the same where they passed', () => {
  const texts = checks.map(({ id }) => textOf(id, 'pass', { metering_kind: 'valve' }));
  expect(new Set(texts).size).toBe(checks.length);
});

const held: Partial<Facts> = {
  pressure_hold_start_s: 300,
  pressure_settled_s: 900,
  pressure_hold_end_s: 3900,
  pressure_drop_pa: 414,
  pressure_drop_high_pa: 4800,
  smallest_drop_seen_pa: 6894.757,
  tested_volume_l: 5,
  smallest_test_loss_low_kg_per_year: 0.36,
  smallest_test_loss_high_kg_per_year: 0.85,
};

describe('a standing pressure test', () => {
  test('could not have seen a drop below its smallest, nor what was no part of it', () => {
    const text = textOf('pressure-not-held', 'pass', held, { job: install });
    expect(text).toContain('a drop of less than 1.00 psi in 50 min (a leak that may lose 13 oz to 1.9 lb a year');
    expect(text).toContain('the outdoor unit, shut on its charge, and other parts behind a shut valve');
    expect(textOf('pressure-not-held', 'pass', held, { units: 'si' })).toContain('less than 0.0689 bar in 50 min');
    expect(textOf('pressure-not-held', 'pass', held)).not.toContain('outdoor');
    const taken = { work_type: 'install' } as const;
    expect(textOf('pressure-not-held', 'pass', held, { job: taken })).toContain('taken to have been shut');
    const twice = { ...held, smallest_drop_seen_pa: 2 * 6894.757 };
    expect(textOf('pressure-test-short', 'fail', twice)).toContain('less than 2.00 psi in 50 min');
  });

  test('whose smallest drop is not known goes by its length, and one without a volume names no loss', () => {
    const { smallest_drop_seen_pa: _, ...unknown } = held;
    expect(textOf('pressure-test-short', 'pass', unknown)).toBe('a leak too slow to show in 60 min.');
    expect(textOf('pressure-not-held', 'pass', { ...held, tested_volume_l: undefined })).not.toContain('may lose');
    expect(textOf('pressure-not-held', 'pass', { ...held, smallest_test_loss_high_kg_per_year: 30 })).toContain(
      'may lose the whole charge within a year or far sooner',
    );
  });

  test('that was flagged does not tell where it leaks, or how cold the gas grew, or what warming hid', () => {
    expect(textOf('pressure-not-held', 'fail', held)).toContain('at the gauge, the valve and the hose of the test');
    const { pressure_drop_pa: _, ...unclamped } = held;
    expect(textOf('pressure-not-held', 'suspect', unclamped)).toContain('how cold the gas grew');
    const risen = { ...held, pressure_drop_pa: -6894.757, pressure_drop_high_pa: -3000 };
    expect(textOf('pressure-not-held', 'suspect', risen)).toContain('a drop of up to 1.00 psi, by which');
  });

  test('held too low could not have seen what opens above that', () => {
    const low = { held_test_pa: 790_801, atmosphere_pa: 101_325 };
    expect(textOf('test-pressure-not-reached', 'fail', low)).toContain('only above the 100.0 psig held');
  });
});

const risen: Partial<Facts> = {
  isolation_start_s: 1200,
  isolation_end_s: 1800,
  rise_pa: 8,
  rise_shape: 'dry',
  leak_low_pa_per_s: 0,
  smallest_rise_seen_pa_per_s: 0.00688832,
  smallest_leak_seen_pa_per_s: 0.0133322368,
  gauge_accuracy_ratio: 0.1,
  line_low_k: 294.26,
};

describe('a rise test', () => {
  test('could not have seen a climb below its smallest, nor a leak that wants pressure', () => {
    const text = textOf('leaking', 'pass', risen, { job: install });
    expect(text).toContain('a steady climb of less than 3.10 µm/min, which this gauge does not show in 10 min');
    expect(text).toContain('a vacuum pulls with one atmosphere only');
    expect(text).toContain('the outdoor unit, shut on its charge');
    expect(textOf('rise-test-short', 'fail', risen, { units: 'si' })).toContain('less than 0.413 Pa/min');
  });

  test('that was not sure could not have told a leak from moisture below its own figure, where that says anything', () => {
    const unsure = { ...risen, rise_shape: 'undecided', leak_high_pa_per_s: 0.02 } as const;
    expect(textOf('leaking', 'suspect', unsure)).toBe(
      'a leak of less than 6.00 µm/min apart from moisture and outgassing.',
    );
    expect(textOf('leaking', 'suspect', { ...unsure, leak_high_pa_per_s: 0.01 })).toBe(
      'which of leak, moisture and outgassing it was.',
    );
    const sure = { ...risen, rise_shape: 'leak', leak_low_pa_per_s: 0.009 } as const;
    expect(textOf('leaking', 'fail', sure)).toContain('where a leak would be');
  });

  test('tells by its size nothing of what it was made of, and nothing above the range of the gauge', () => {
    expect(textOf('rise-over-limit', 'fail', risen)).toContain('what the rise of 60.0 µm was made of');
    expect(textOf('rise-over-limit', 'fail', { ...risen, isolation_over: true })).toContain('above the gauge’s range');
    expect(textOf('rise-over-limit', 'pass', risen)).toContain('± 10 % of the gauge');
    expect(textOf('wet', 'pass', risen)).toContain('colder than the 70.0 °F that the clamp showed');
  });

  test('could not have told a leak by what it loses, where volume and refrigerant are known', () => {
    const sized = { smallest_loss_low_kg_per_year: 0.0517, smallest_loss_high_kg_per_year: 1, tested_volume_l: 5 };
    expect(textOf('rise-test-blind', 'suspect', { ...risen, ...sized })).toContain('may lose 1.8 oz to 2.2 lb a year');
    expect(textOf('rise-test-blind', 'pass', risen)).not.toContain('may lose');
  });
});

test('a charge is known no better than scale, hoses and lengths', () => {
  const facts = {
    charge_deviation_low_kg: -0.012,
    charge_deviation_high_kg: 0.016,
    line_adder_kg_per_m: 0.02,
    hose_residual_basis: 'assumed',
    hose_residual_high_kg: 0.06,
  } as const;
  expect(textOf('charge-off-target', 'pass', facts, { units: 'si' })).toBe(
    'the charge to better than ± 14 g, by scale, hoses and lengths; what stayed in the hoses, up to 60 g of a short set; a length or a factory charge that is wrong on record (3.0 m of line count for 61 g).',
  );
  expect(textOf('charge-off-target', 'fail', { ...facts, hose_residual_basis: 'recorded' })).not.toContain('short set');
  expect(textOf('scale-unsteady', 'pass', { scale_drop_low_kg: 0.407, scale_drop_high_kg: 0.417 })).toContain(
    'better than ± 0.2 oz',
  );
  expect(textOf('no-weigh-in', 'pass', { charged_from: 'record' })).toContain('a figure that somebody wrote');
  expect(textOf('no-weigh-in', 'pass', { charged_from: 'scale' })).toContain('a scale that weighs wrong');
});

test('a run is one steady stretch under one weather', () => {
  const facts = {
    steady_start_s: 900,
    steady_end_s: 1500,
    run_outdoor_k: 308.15,
    metering_kind: 'valve',
    superheat_low_k: 5,
    superheat_high_k: 7,
  } as const;
  const text = textOf('superheat-off', 'pass', facts);
  expect(text).toContain('a valve keeps its superheat');
  expect(text).toContain('the superheat to better than ± 1.8 °F');
  expect(text).toContain('one steady stretch of 10 min at 95.0 °F outdoors');
  expect(textOf('superheat-off', 'pass', { ...facts, metering_kind: 'fixed' })).not.toContain('valve');
});

test('a recording tells what it missed by its own figures', () => {
  expect(textOf('gaps', 'fail', { gap_longest_s: 480 })).toContain('the longest took 8 min');
  expect(textOf('stuck-sensor', 'fail', { stuck_s: 600 })).toContain('in those 10 min');
  expect(textOf('copied-trace', 'pass', { pressure_curves: 3, compared_curves: 1 })).toContain(
    '2 of 3 pressure curves',
  );
  expect(textOf('copied-trace', 'pass', { pressure_curves: 1, compared_curves: 1 })).not.toContain('pressure curves');
});
