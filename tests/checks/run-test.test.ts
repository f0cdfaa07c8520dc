import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Check } from '../../src/checks/check.ts';
import { checkNamed, checks } from '../../src/checks/checks.ts';
import { messageText } from '../../src/checks/message-text.ts';
import { steadyFacts } from '../../src/checks/run-conditions.ts';
import type { Facts } from '../../src/records/tables/facts.ts';
import { limitsOf } from './limits-of.ts';

const kelvin = (fahrenheit: number) => (fahrenheit - 32) / 1.8 + 273.15;
const change = (fahrenheit: number) => fahrenheit / 1.8;
const judgement = (id: string, facts: Partial<Facts>) => {
  const check = checkNamed(id) as Check;
  return check.judge(Object.freeze(facts), limitsOf(check));
};
const judged = (id: string, facts: Partial<Facts>) => {
  const { outcome, message } = judgement(id, facts);
  return [outcome, message];
};
/** A value as sure as good clamps make it: 1 °F either way. */
const around = (name: 'superheat' | 'subcooling', fahrenheit: number) => ({
  [`${name}_k`]: change(fahrenheit),
  [`${name}_low_k`]: change(fahrenheit - 1),
  [`${name}_high_k`]: change(fahrenheit + 1),
});
const fixed = (superheatF: number, targetF: number | undefined, more: Partial<Facts> = {}): Partial<Facts> => ({
  ...steadyFacts,
  metering_kind: 'fixed',
  ...around('superheat', superheatF),
  ...(targetF === undefined ? {} : { target_superheat_k: change(targetF), target_superheat_basis: 'table' as const }),
  ...more,
});
const valve = (subcoolingF: number, targetF: number, more: Partial<Facts> = {}): Partial<Facts> => ({
  ...steadyFacts,
  metering_kind: 'valve',
  ...around('subcooling', subcoolingF),
  target_subcooling_k: change(targetF),
  ...more,
});

describe('the day', () => {
  test.each([
    ['superheat-off', fixed(12, 12)],
    ['subcooling-off', valve(10, 10)],
  ] as const)('%s judges from 55 °F outdoors on', (id, facts) => {
    const at = (fahrenheit: number) => judged(id, { ...facts, run_outdoor_k: kelvin(fahrenheit) });
    expect(at(55.01)).toEqual(['pass', 'met']);
    expect(at(54.9)).toEqual(['not-evaluated', 'too-cold']);
  });

  test.each([
    ['superheat-off', fixed(40, 12)],
    ['subcooling-off', valve(40, 10)],
  ] as const)('%s leaves a compressor that chooses its speed to the scale, but not a test mode', (id, facts) => {
    expect(judged(id, { ...facts, run_speed: 'free' })).toEqual(['not-evaluated', 'free-speed']);
    expect(judged(id, { ...facts, run_speed: 'fixed' })[0]).toBe('fail');
  });
});

describe('superheat of a fixed orifice', () => {
  test.each([
    [5.1, 'pass', 'met'],
    [4.9, 'not-evaluated', 'low-target'],
  ])('target %d °F', (targetF, outcome, message) => {
    expect(judged('superheat-off', fixed(targetF, targetF))).toEqual([outcome, message]);
  });

  test.each([
    [16.9, 'pass', 'met'],
    [17.1, 'suspect', 'high'],
    [21.9, 'suspect', 'high'],
    [22.1, 'fail', 'high'],
    [7.1, 'pass', 'met'],
    [6.9, 'suspect', 'low'],
    [1.9, 'fail', 'low'],
  ])('%d °F where 12 °F is the target', (superheatF, outcome, message) => {
    expect(judged('superheat-off', fixed(superheatF, 12))).toEqual([outcome, message]);
  });

  test('does not fail where it may be within what is allowed', () => {
    const unsure = { superheat_low_k: change(16), superheat_high_k: change(32) };
    expect(judged('superheat-off', fixed(24, 12, unsure))).toEqual(['suspect', 'high']);
  });

  test('needs no wet bulb for what the record asks for, and says that it is asked for', () => {
    const asked = { target_superheat_basis: 'record', run_indoor_wet_bulb_k: undefined } as const;
    expect(judged('superheat-off', fixed(12, 12, asked))).toEqual(['pass', 'asked-met']);
    expect(judged('superheat-off', fixed(30, 12, asked))).toEqual(['fail', 'asked-high']);
    const { message, evidence } = judgement('superheat-off', fixed(1, 12, asked));
    expect(messageText(checkNamed('superheat-off') as Check, message, evidence, 'ip')).toBe(
      'Superheat 1.0 °F (0.0 °F to 2.0 °F, 95 %), where the record asks for 12.0 °F: 11.0 °F too low, as where there is too much charge or too little air.',
    );
    expect(judged('superheat-off', fixed(12, undefined, { run_indoor_wet_bulb_k: undefined }))).toEqual([
      'not-evaluated',
      'no-wet-bulb',
    ]);
  });
});

describe('superheat of a valve', () => {
  test.each([
    [2.9, 'suspect', 'valve-low'],
    [3.1, 'pass', 'valve-keeps'],
    [25.9, 'pass', 'valve-keeps'],
    [26.1, 'suspect', 'valve-high'],
  ])('%d °F, as sure as 1 °F, beside 4 to 25 °F', (superheatF, outcome, message) => {
    const facts = { ...valve(10, 10), ...around('superheat', superheatF), target_superheat_k: change(12) };
    expect(judged('superheat-off', facts)).toEqual([outcome, message]);
  });
});

describe('subcooling of a valve', () => {
  test.each([
    [12.9, 'pass', 'met'],
    [13.1, 'suspect', 'high'],
    [16.1, 'fail', 'high'],
    [7.1, 'pass', 'met'],
    [6.9, 'suspect', 'low'],
    [3.9, 'fail', 'low'],
  ])('%d °F where the maker asks for 10 °F', (subcoolingF, outcome, message) => {
    expect(judged('subcooling-off', valve(subcoolingF, 10))).toEqual([outcome, message]);
  });

  test('is nothing to an orifice, nor behind a metering device outdoors', () => {
    expect(judged('subcooling-off', valve(1, 10, { metering_kind: 'fixed' }))[1]).toBe('fixed-orifice');
    expect(judged('subcooling-off', valve(1, 10, { liquid_line_phase: 'two-phase' }))[1]).toBe('two-phase');
  });

  test('farther off is never better', () => {
    const rank = ['pass', 'suspect', 'fail'];
    const off = fc.integer({ min: 0, max: 300 });
    fc.assert(
      fc.property(off, off, fc.constantFrom(-1, 1), (a, b, side) => {
        const [near = 9, far = -1] = [Math.min(a, b), Math.max(a, b)].map((tenths) =>
          rank.indexOf(judged('subcooling-off', valve(40 + (side * tenths) / 10, 40))[0] ?? ''),
        );
        expect(near).toBeGreaterThanOrEqual(0);
        expect(far).toBeGreaterThanOrEqual(near);
      }),
      { seed: 5, numRuns: 200 },
    );
  });
});

describe('a compressor in a vacuum', () => {
  test.each([
    [0, 'pass'],
    [5, 'pass'],
    [5.1, 'fail'],
  ])('for %d s', (vacuum_run_s, outcome) => {
    const facts = { compressor_readings: 300, vacuum_run_s, ...(vacuum_run_s > 0 ? { vacuum_run_pa: 2666.4 } : {}) };
    expect(judged('compressor-in-vacuum', facts)[0]).toBe(outcome);
  });

  test('counts whether or not the run could be judged', () => {
    const facts = { compressor_readings: 300, vacuum_run_s: 60, vacuum_run_pa: 267, run_readings: 9 };
    expect(judged('compressor-in-vacuum', { ...facts, run_problem: 'short' })[0]).toBe('fail');
  });
});

test('a run that was short is suspect in the check of it, and judged by no other', () => {
  const ids = checks
    .filter(({ group, id }) => group === 'run-test' && id !== 'compressor-in-vacuum')
    .map(({ id }) => id);
  expect(ids.toSorted()).toEqual(['no-run-test', 'run-pattern', 'subcooling-off', 'superheat-off']);
  for (const id of ids) {
    expect(judged(id, {})).toEqual(['missing', 'no-log']);
    for (const run_problem of ['short', 'not-steady'] as const)
      expect(judged(id, { ...fixed(12, 12), run_s: 600, run_problem })).toEqual([
        id === 'no-run-test' ? 'suspect' : 'not-evaluated',
        run_problem,
      ]);
    expect(judged(id, { ...fixed(12, 12), run_problem: 'swapped' })).toEqual(['not-evaluated', 'swapped']);
  }
});

test('how long it ran since the charge was changed is said, nothing included', () => {
  const check = checkNamed('no-run-test') as Check;
  const said = (facts: Partial<Facts>) => {
    const { message, evidence } = judgement('no-run-test', { ...facts, run_readings: 9, run_problem: 'short' });
    return messageText(check, message, evidence, 'ip');
  };
  expect(said({ run_s: 1500, run_since_change_s: 300 })).toContain(
    'ran for only 5 min after its charge was last changed (25 min in all)',
  );
  expect(said({ run_s: 1500, run_since_change_s: 0 })).toContain(
    'ran for only 0 s after its charge was last changed (25 min in all)',
  );
  expect(said({ run_s: 600 })).toContain('ran for only 10 min; it takes 15 min');
});
