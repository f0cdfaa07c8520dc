import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Check } from '../../src/checks/check.ts';
import { checkNamed, checks } from '../../src/checks/checks.ts';
import { asRecorded, resolveLimits } from '../../src/checks/policy.ts';
import type { Facts } from '../../src/records/tables/facts.ts';
import { limitsOf } from './limits-of.ts';

// 1 psi = 6894.757 Pa (NIST SP 811, B.9).
const psig = (gauge: number, airPa = 101325) => gauge * 6894.757 + airPa;
const judged = (id: string, facts: Partial<Facts>, limits: Record<string, number> = {}) => {
  const check = checkNamed(id) as Check;
  const { outcome, message } = check.judge(Object.freeze(facts), limitsOf(check, limits));
  return [outcome, message];
};
const held: Partial<Facts> = {
  pressure_readings: 900,
  atmosphere_pa: 101325,
  highest_test_pa: psig(300),
  pressure_hold_start_s: 0,
  pressure_hold_end_s: 900,
  held_test_pa: psig(300),
};

test('the checks of the pressure test come first, in the order of the work', () => {
  expect(checks.slice(0, 6).map(({ group }) => group)).toEqual(Array.from({ length: 6 }, () => 'pressure-test'));
  expect(checks.filter(({ group }) => group === 'pressure-test').length).toBe(6);
});

describe('what is asked for is a gauge pressure', () => {
  test.each([
    [294.001, 'pass', 'reached'],
    [293.999, 'fail', 'not-reached'],
  ])('300 psig, held at %d psig', (heldPsig, outcome, message) => {
    const facts = { ...held, held_test_pa: psig(heldPsig), highest_test_pa: psig(heldPsig) };
    expect(judged('test-pressure-not-reached', facts, { target_pa: psig(300) })).toEqual([outcome, message]);
  });

  test('the pressure that was held judges, the pressure that was filled to only softens', () => {
    const facts = { ...held, held_test_pa: psig(200) };
    expect(judged('test-pressure-not-reached', { ...facts, highest_test_pa: psig(294.1) })[0]).toBe('suspect');
    expect(judged('test-pressure-not-reached', { ...facts, highest_test_pa: psig(293.9) })[0]).toBe('fail');
  });

  test('and counts from the air of the site: 2 % of 300 psig are 6 psi at any altitude', () => {
    // 1 500 m: 84.56 kPa (ISO 2533).
    const airPa = 84560;
    const at = (gauge: number) => ({
      ...held,
      atmosphere_pa: airPa,
      highest_test_pa: 0,
      held_test_pa: psig(gauge, airPa),
    });
    const limits = { target_pa: psig(300, airPa) };
    expect(judged('test-pressure-not-reached', at(294.01), limits)[0]).toBe('pass');
    expect(judged('test-pressure-not-reached', at(293.99), limits)[0]).toBe('fail');
  });

  test('the job’s own target goes before the default', () => {
    const check = checkNamed('test-pressure-not-reached') as Check;
    const limits = resolveLimits(check, asRecorded, { test_pressure_target_pa: psig(450) });
    const { outcome, evidence } = check.judge(held, limits);
    expect([outcome, evidence.target_test_pa, evidence.target_source]).toEqual(['fail', psig(450), 'record']);
  });
});

describe('ratings', () => {
  const rated = { high_pa: psig(450), low_pa: psig(250) };
  const upTo = (gauge: number) => ({ ...held, highest_test_pa: psig(gauge) });

  // 1.1 × 450 = 495 psig, 1.1 × 250 = 275 psig, 1.02 × 250 = 255 psig.
  test.each([
    [254.99, 'pass', 'within'],
    [255.01, 'suspect', 'above-rating'],
    [274.99, 'suspect', 'above-rating'],
    [275.01, 'suspect', 'over-low'],
    [494.99, 'suspect', 'over-low'],
    [495.01, 'fail', 'over'],
  ])('up to %d psig', (gauge, outcome, message) => {
    expect(judged('test-pressure-over-design', upTo(gauge), rated)).toEqual([outcome, message]);
  });

  test('a quarter more, where the rule allows it', () => {
    const limits = { ...rated, low_pa: psig(450), most_ratio: 1.25, rated_ratio: 1.25 };
    expect(judged('test-pressure-over-design', upTo(562.49), limits)[0]).toBe('pass');
    expect(judged('test-pressure-over-design', upTo(562.51), limits)[0]).toBe('fail');
  });

  test('none is recorded: nothing is said, however high it went', () => {
    expect(judged('test-pressure-over-design', upTo(900))).toEqual(['not-evaluated', 'no-design-pressure']);
  });

  test('a hold that was never made, and a gap, do not hide that the test went over', () => {
    for (const pressure_problem of ['never-held', 'gap', 'too-few-readings'] as const)
      expect(judged('test-pressure-over-design', { ...upTo(600), pressure_problem }, rated)[0]).toBe('fail');
  });

  test('higher is never better', () => {
    const rank = ['pass', 'suspect', 'fail'];
    const gauge = fc.double({ min: 0, max: 800, noNaN: true });
    fc.assert(
      fc.property(gauge, gauge, (a, b) => {
        const [lower, higher] = [Math.min(a, b), Math.max(a, b)].map((psi) =>
          rank.indexOf(judged('test-pressure-over-design', upTo(psi), rated)[0]),
        );
        expect(lower).toBeGreaterThanOrEqual(0);
        expect(higher).toBeGreaterThanOrEqual(lower);
      }),
      { seed: 24, numRuns: 200 },
    );
  });
});

describe('time', () => {
  const forS = (lengthS: number) => ({ ...held, pressure_hold_end_s: lengthS });

  test.each([
    [59.9, 'fail', 'fail'],
    [60, 'pass', 'fail'],
    [854.9, 'pass', 'fail'],
    [855, 'pass', 'pass'],
  ])('%d s: a test at all %s, long enough %s', (lengthS, isTest, isLong) => {
    expect(judged('no-pressure-test', forS(lengthS))[0]).toBe(isTest);
    expect(judged('pressure-test-short', forS(lengthS))[0]).toBe(isLong);
  });
});

describe('a leak that matters', () => {
  const seen = {
    ...held,
    pressure_drop_pa: 0,
    smallest_drop_seen_pa: 6894.757,
    smallest_test_loss_low_kg_per_year: 5,
    smallest_test_loss_high_kg_per_year: 12,
  };

  test('is one that takes the charge within a week, by the high end of the band', () => {
    // 2 kg a week are 104.36 kg a year of 365.25 days.
    const losing = (kgPerYear: number, more: Partial<Facts> = {}) =>
      judged('pressure-test-blind', { ...seen, ...more, smallest_test_loss_high_kg_per_year: kgPerYear })[0];
    expect([losing(104.3), losing(104.4)]).toEqual(['pass', 'suspect']);
    // Of a system with twice the charge, twice as much.
    expect([losing(208.6, { charge_target_kg: 4 }), losing(208.8, { charge_target_kg: 4 })]).toEqual([
      'pass',
      'suspect',
    ]);
  });

  test('more pressure is never what is advised', () => {
    const check = checkNamed('pressure-test-blind') as Check;
    expect(check.messages.blind).not.toMatch(/more pressure|higher pressure/i);
    expect(check.teach).toContain('Never make up for it with pressure');
  });

  test('no temperature, no judgement', () => {
    const facts = { ...seen, pressure_drop_pa: undefined, read_drop_pa: 100 };
    expect(judged('pressure-test-blind', facts)).toEqual(['not-evaluated', 'no-temperature']);
  });
});

test('what carries no judgement is missing or not evaluated in all of them; only a hold that was never made is a fault of one', () => {
  const ids = checks.filter(({ group }) => group === 'pressure-test').map(({ id }) => id);
  for (const id of ids) {
    expect(judged(id, {})).toEqual(['missing', 'no-log']);
    expect(judged(id, { pressure_problem: 'not-opened' })).toEqual(['not-evaluated', 'not-opened']);
    for (const problem of ['too-few-readings', 'gap'] as const)
      expect(judged(id, { ...held, highest_test_pa: undefined, pressure_problem: problem })).toEqual([
        'not-evaluated',
        problem,
      ]);
    const [outcome] = judged(id, { pressure_readings: 300, pressure_problem: 'never-held' });
    expect(outcome).toBe(id === 'no-pressure-test' ? 'fail' : 'not-evaluated');
  }
});
