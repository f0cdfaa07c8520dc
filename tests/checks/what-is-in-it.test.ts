import { describe, expect, test } from 'vitest';
import type { Check } from '../../src/checks/check.ts';
import { checkNamed } from '../../src/checks/checks.ts';
import { messageText } from '../../src/checks/message-text.ts';
import { steadyFacts } from '../../src/checks/run-conditions.ts';
import type { Facts } from '../../src/records/tables/facts.ts';
import { limitsOf } from './limits-of.ts';

const found = (id: string, facts: Partial<Facts>, units: 'ip' | 'si' = 'ip') => {
  const check = checkNamed(id) as Check;
  const { outcome, message, evidence } = check.judge(Object.freeze(facts), limitsOf(check));
  return { outcome, message, text: messageText(check, message, evidence, units) };
};
const psig = (gauge: number, airPa = 101_325) => gauge * 6894.757 + airPa;

describe('the refrigerant', () => {
  const rested = {
    atmosphere_pa: 101_325,
    rest_pa: psig(250),
    rest_expected_pa: psig(226),
    refrigerant_seen: 'rest',
    likely_refrigerant_ratio: 0.01,
    air_ratio: 0.02,
  } as const;
  const other = { ...rested, likely_refrigerant: 'R-22' };

  test.each([
    [0.89, 'suspect'],
    [0.91, 'fail'],
  ])('another one at %d', (likely_refrigerant_ratio, outcome) => {
    expect(found('wrong-refrigerant', { ...other, likely_refrigerant_ratio })).toMatchObject({
      outcome,
      message: 'other',
    });
  });

  test('air is told as air, in gauge pressures of the site', () => {
    const airy = { ...rested, air_ratio: 0.9 };
    expect(found('wrong-refrigerant', airy)).toEqual({
      outcome: 'suspect',
      message: 'air',
      text: 'At rest the pressure is 250.0 psig where the refrigerant on record has 226.0 psig: likely air or nitrogen in the system (90.0 %).',
    });
    // The same pressures under less air: 17.9 kPa are 2.6 psi.
    const denver = found('wrong-refrigerant', { ...airy, atmosphere_pa: 83_400 });
    expect(denver.text).toContain('252.6 psig where the refrigerant on record has 228.6 psig');
    expect(found('wrong-refrigerant', airy, 'si').text).toContain('17.24 bar gauge where');
    expect(found('wrong-refrigerant', { ...rested, air_ratio: 0.49 }).message).toBe('fits');
  });

  test('air or another, whichever is likelier', () => {
    const both = { ...other, likely_refrigerant_ratio: 0.3, air_ratio: 0.6 };
    expect(found('wrong-refrigerant', both)).toMatchObject({ outcome: 'suspect', message: 'other-or-air' });
    expect(found('wrong-refrigerant', both).text).toContain('likeliest R-22 (30.0 %)');
    expect(found('wrong-refrigerant', { ...both, likely_refrigerant_ratio: 0.65, air_ratio: 0.3 }).message).toBe(
      'other',
    );
    // A run alone does not tell air.
    const running = { ...both, rest_pa: undefined, rest_expected_pa: undefined, refrigerant_seen: 'run' } as const;
    expect(found('wrong-refrigerant', running)).toMatchObject({ outcome: 'suspect', message: 'other' });
  });

  test('the label of the cylinder goes before all that pressures say', () => {
    const facts = { ...rested, weighed_refrigerant: 'R-32', refrigerants_alike: 'R-32' };
    expect(found('wrong-refrigerant', facts)).toMatchObject({ outcome: 'fail', message: 'cylinder' });
  });

  test('what pressures cannot tell apart is named', () => {
    const { text, outcome } = found('wrong-refrigerant', { ...rested, refrigerants_alike: 'R-32, R-454B' });
    expect(outcome).toBe('pass');
    expect(text).toContain('they do not tell it from R-32, R-454B');
  });
});

describe('what no system shows', () => {
  const ran = { ...steadyFacts, run_dew_k: 280, run_bubble_k: 313 } as const;

  test('how far beyond saturation, on the side that is farther', () => {
    const beyond = (suctionK: number, liquidK: number, more: Partial<Facts> = {}) =>
      found('off-range', {
        ...ran,
        run_problem: 'below-dew',
        run_suction_line_k: 280 + suctionK,
        run_liquid_line_k: 313 + liquidK,
        ...more,
      }).text;
    expect(beyond(-4, -6)).toContain('by 7.2 °F');
    expect(beyond(6, 5)).toContain('by 9.0 °F');
    // Behind a metering device outdoors the liquid line has no side that is wrong.
    expect(beyond(-4, 5, { liquid_line_phase: 'two-phase' })).toContain('by 7.2 °F');
    expect(beyond(-4, 5, { run_bubble_k: undefined })).toContain('by 7.2 °F');
  });

  test('a run that could be judged is plausible, and a charge without a run as well', () => {
    expect(found('off-range', ran)).toMatchObject({ outcome: 'pass', message: 'plausible' });
    expect(found('off-range', { drawn_kg: 0.3 })).toMatchObject({ outcome: 'pass', message: 'plausible' });
    expect(found('off-range', { ...ran, run_problem: 'short' })).toMatchObject({ outcome: 'pass' });
  });

  test('a mass no system takes goes before a clamp', () => {
    const facts = { ...ran, drawn_kg: 40, charge_problem: 'absurd-mass', run_problem: 'clamp-off' } as const;
    expect(found('off-range', facts).message).toBe('absurd-mass');
    // Only the mass that was found absurd, and only where it is known.
    expect(found('off-range', { ...facts, drawn_kg: undefined }).message).toBe('clamp-off');
  });
});

describe('the pattern beside the weigh-in', () => {
  const patterned = (run_pattern: Facts['run_pattern'], deviationKg: number | undefined, more: Partial<Facts> = {}) =>
    found('run-pattern', {
      ...steadyFacts,
      metering_kind: 'valve',
      run_pattern,
      run_pattern_ratio: 0.9,
      run_signs: '[]',
      charge_target_kg: 2,
      ...(deviationKg === undefined
        ? {}
        : {
            charge_deviation_kg: deviationKg,
            charge_deviation_low_kg: deviationKg - 0.01,
            charge_deviation_high_kg: deviationKg + 0.01,
          }),
      ...more,
    });

  test.each([
    ['low-charge', -0.2, 'charge-agrees'],
    ['low-charge', -0.06, 'charge-disagrees'],
    ['low-charge', -0.075, 'charge-agrees'],
    ['low-charge', 0.2, 'charge-disagrees'],
    ['overcharge', 0.2, 'charge-agrees'],
    ['overcharge', -0.2, 'charge-disagrees'],
    ['overcharge', undefined, 'overcharge'],
    ['restriction', -0.2, 'restriction'],
    ['poor-airflow', 0.2, 'poor-airflow'],
  ] as const)('%s, %d kg off of 2 kg: %s', (pattern, deviationKg, message) => {
    expect(patterned(pattern, deviationKg)).toMatchObject({ outcome: 'suspect', message });
  });

  test('no fault, though the charge is off: doubted only where that would have shown', () => {
    const blind = { run_patterns: '{"none":0.86,"low-charge":0.1,"overcharge":0.001}' };
    expect(patterned('none', -0.4, blind).message).toBe('none');
    expect(patterned('none', 0.4, blind).message).toBe('none-though-charge-off');
    expect(patterned('none', 0.1, blind).message).toBe('none');
    expect(patterned('none', 0.4).message).toBe('none');
  });

  test('fails where it is sure', () => {
    expect(patterned('restriction', 0, { run_pattern_ratio: 0.96 }).outcome).toBe('fail');
    expect(patterned('restriction', 0, { run_pattern_ratio: 0.94 }).outcome).toBe('suspect');
  });

  test('says which readings speak for it and which against it', () => {
    const run_signs = JSON.stringify([
      { reading: 'superheat', off: 8, for: 'low-charge' },
      { reading: 'subcooling', off: -5, for: 'low-charge' },
      { reading: 'pressure at rest', off: 0, for: '' },
    ]);
    expect(patterned('low-charge', undefined, { run_signs }).text).toBe(
      'The readings together look like too little refrigerant (90.0 %): superheat, subcooling speak for it, nothing speaks against it.',
    );
  });
});
