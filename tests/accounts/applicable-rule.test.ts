import { describe, expect, test } from 'vitest';
import type { ApplianceRecord } from '../../src/accounts/appliance-record.ts';
import { atLeastLb, ruleVerdict } from '../../src/accounts/applicable-rule.ts';
import { dayOf } from '../../src/numerics/calendar-day.ts';
import { eu10052009 } from '../../src/accounts/rules/eu-1005-2009.ts';
import { eu2024573 } from '../../src/accounts/rules/eu-2024-573.ts';
import type { RuleSet } from '../../src/accounts/rules/rule-set.ts';
import { us40Cfr82157 } from '../../src/accounts/rules/us-40-cfr-82-157.ts';
import { us40Cfr84106 } from '../../src/accounts/rules/us-40-cfr-84-106.ts';
import { anAppliance, poundKg } from './appliance-drafts.ts';

const verdict = (rule: RuleSet, changed: Partial<ApplianceRecord> = {}, on = '2026-06-01') => {
  const { state, reason, ...more } = ruleVerdict(anAppliance(changed), rule, dayOf(on));
  return { said: `${state}: ${reason.id}`, ...more };
};
const said = (rule: RuleSet, changed: Partial<ApplianceRecord> = {}, on?: string) => verdict(rule, changed, on).said;

describe('40 CFR 84.106, hydrofluorocarbons', () => {
  const rule = us40Cfr84106;

  test.each([
    [14.9 * poundKg, 'does-not: below-charge'],
    [15 * poundKg, 'applies: applies'],
    // 15 lb are 6.8039 kg: written to two decimals that is 6.80.
    [6.8, 'applies: applies'],
    [6.79, 'does-not: below-charge'],
  ])('a full charge of %d kg', (fullChargeKg, expected) => {
    expect(said(rule, { fullChargeKg })).toBe(expected);
  });

  test.each([
    ['2025-12-31', 'does-not: not-yet'],
    ['2026-01-01', 'applies: applies'],
  ])('on %s', (on, expected) => {
    expect(said(rule, {}, on)).toBe(expected);
  });

  test.each([
    ['residential-comfort', 'does-not: excluded-sector', undefined],
    ['light-commercial-comfort', 'does-not: excluded-sector', undefined],
    ['comfort', 'applies: applies', 0.1],
    ['commercial-refrigeration', 'applies: applies', 0.2],
    ['industrial-process', 'applies: applies', 0.3],
    ['transport', 'applies: applies', 0.1],
  ] as const)('of the sector %s', (sector, expected, trigger) => {
    expect(verdict(rule, { sector })).toEqual(trigger === undefined ? { said: expected } : { said: expected, trigger });
  });

  test.each([
    // 1, 3.3, 1 and 1 are no more than 53; 146 is.
    ['R-1234yf', 'does-not: low-gwp'],
    ['R-290', 'does-not: low-gwp'],
    ['R-600a', 'does-not: low-gwp'],
    ['R-744', 'does-not: low-gwp'],
    ['R-454C', 'applies: applies'],
    ['R-152a', 'applies: applies'],
    ['R-410A', 'applies: applies'],
    ['R-466A', 'applies: applies'],
    // What depletes ozone is left to 82.157.
    ['R-22', 'does-not: ozone-depleting'],
    ['R-502', 'does-not: ozone-depleting'],
  ])('with %s', (refrigerant, expected) => {
    expect(said(rule, { refrigerant })).toBe(expected);
  });

  test('holds above a GWP of 53, not at it', () => {
    const at = (value: number) =>
      said({ ...rule, gwpOver: { value, basis: 'second hand' } }, { refrigerant: 'R-454C' });
    // R-454C is printed as 146.
    expect(at(146)).toBe('does-not: low-gwp');
    expect(at(145.9)).toBe('applies: applies');
  });
});

describe('40 CFR 82.157, ozone-depleting refrigerants', () => {
  const rule = us40Cfr82157;
  const r22 = { refrigerant: 'R-22' };

  test.each([
    [49.9 * poundKg, 'does-not: below-charge'],
    [50 * poundKg, 'applies: applies'],
    [22.68, 'applies: applies'],
    [22.67, 'does-not: below-charge'],
  ])('a full charge of %d kg', (fullChargeKg, expected) => {
    expect(said(rule, { ...r22, fullChargeKg })).toBe(expected);
  });

  test('60 lb of R-410A are not under it', () => {
    expect(said(rule, { refrigerant: 'R-410A', fullChargeKg: 60 * poundKg })).toBe('does-not: not-ozone-depleting');
  });

  test.each([
    // 10 % of comfort cooling since 2019; it was 15 % before.
    ['comfort', 0.1],
    ['light-commercial-comfort', 0.1],
    ['residential-comfort', 0.1],
    ['transport', 0.1],
    ['commercial-refrigeration', 0.2],
    ['industrial-process', 0.3],
  ] as const)('has no sector left out: the trigger of %s is %d', (sector, trigger) => {
    expect(verdict(rule, { ...r22, sector })).toEqual({ said: 'applies: applies', trigger });
  });

  test.each([
    ['2018-12-31', 'does-not: not-yet'],
    ['2019-01-01', 'applies: applies'],
  ])('on %s', (on, expected) => {
    expect(said(rule, r22, on)).toBe(expected);
  });
});

describe('Regulation (EU) 2024/573', () => {
  const rule = eu2024573;
  const eu = { jurisdiction: 'EU' } as const;
  /** So many kilograms of R-410A are a tonne by AR4. */
  const perTonneKg = 1000 / 2087.5;
  const at = (co2eT: number, changed: Partial<ApplianceRecord> = {}) =>
    verdict(rule, { ...eu, refrigerant: 'R-410A', fullChargeKg: co2eT * perTonneKg, isHermetic: false, ...changed });

  test.each([
    [4.99, 'does-not: below-co2e', undefined],
    [5.001, 'applies: applies', 12],
    [49.99, 'applies: applies', 12],
    [50.001, 'applies: applies', 6],
    [499.9, 'applies: applies', 6],
    [500.1, 'applies: applies', 3],
  ])('%d t of carbon dioxide', (co2eT, expected, everyMonths) => {
    expect(at(co2eT)).toEqual(everyMonths === undefined ? { said: expected } : { said: expected, everyMonths });
    // With leak detection half as often.
    const seldom = at(co2eT, { hasDetection: true });
    expect(seldom.everyMonths).toBe(everyMonths === undefined ? undefined : 2 * everyMonths);
    expect(at(co2eT, { hasDetection: false }).everyMonths).toBe(everyMonths);
  });

  test('exactly 50 and 500 t count as reached', () => {
    // R-125 has 3500: 3.5 t a kilogram.
    const r125 = (fullChargeKg: number) =>
      verdict(rule, { ...eu, refrigerant: 'R-125', fullChargeKg, isHermetic: false }).everyMonths;
    expect([r125(50 / 3.5), r125(500 / 3.5)]).toEqual([6, 3]);
    // R-32 has 675: 7.40, 7.41 and 8 kg are 4.995, 5.002 and 5.4 t.
    const r32 = (fullChargeKg: number) => said(rule, { ...eu, refrigerant: 'R-32', fullChargeKg, isHermetic: false });
    expect([r32(7.4), r32(7.41), r32(8)]).toEqual(['does-not: below-co2e', 'applies: applies', 'applies: applies']);
  });

  test.each([
    ['R-1234yf', 0.99, 'does-not: below-mass', undefined],
    ['R-1234yf', 1, 'applies: applies', 12],
    ['R-1234yf', 9.99, 'applies: applies', 12],
    ['R-1234yf', 10, 'applies: applies', 6],
    ['R-1234ze(E)', 99.9, 'applies: applies', 6],
    ['R-1234ze(E)', 100, 'applies: applies', 3],
  ])('goes by mass for %s: %d kg', (refrigerant, fullChargeKg, expected, everyMonths) => {
    const found = verdict(rule, { ...eu, refrigerant, fullChargeKg, isHermetic: false });
    expect(found).toEqual(everyMonths === undefined ? { said: expected } : { said: expected, everyMonths });
  });

  test.each([
    [9.99, true, 'does-not: hermetic'],
    [10.001, true, 'applies: applies'],
    [9.99, false, 'applies: applies'],
    [9.99, null, 'unknown: no-hermetic'],
    [10.001, null, 'applies: applies'],
  ])('%d t, hermetic: %s', (co2eT, isHermetic, expected) => {
    expect(at(co2eT, { isHermetic }).said).toBe(expected);
  });

  test.each([
    [1.99, 'does-not: hermetic'],
    [2, 'applies: applies'],
  ])('%d kg of an unsaturated one, hermetic', (fullChargeKg, expected) => {
    expect(said(rule, { ...eu, refrigerant: 'R-1234yf', fullChargeKg, isHermetic: true })).toBe(expected);
  });

  test.each([
    // 2.99 and 3 kg of R-404A are 11.7 and 11.8 t: over 10 t, so that the mass alone decides.
    ['residential-comfort', 2.99, 'does-not: hermetic'],
    ['residential-comfort', 3, 'applies: applies'],
    ['comfort', 2.99, 'applies: applies'],
  ] as const)('a hermetic one of %s with %d kg', (sector, fullChargeKg, expected) => {
    expect(said(rule, { ...eu, refrigerant: 'R-404A', sector, fullChargeKg, isHermetic: true })).toBe(expected);
  });

  test.each([
    ['R-22', 'does-not: ozone-depleting'],
    ['R-290', 'does-not: not-fluorinated'],
    ['R-744', 'does-not: not-fluorinated'],
    ['R-600a', 'does-not: not-fluorinated'],
  ])('not with %s', (refrigerant, expected) => {
    expect(said(rule, { ...eu, refrigerant, fullChargeKg: 1000 })).toBe(expected);
  });
});

describe('Regulation (EC) 1005/2009', () => {
  test.each([
    [2.99, 'does-not: below-mass', undefined],
    [3, 'applies: applies', 12],
    [29.99, 'applies: applies', 12],
    [30, 'applies: applies', 6],
    [299.9, 'applies: applies', 6],
    [300, 'applies: applies', 3],
  ])('%d kg', (fullChargeKg, expected, everyMonths) => {
    const found = verdict(eu10052009, { jurisdiction: 'EU', refrigerant: 'R-22', fullChargeKg });
    expect(found).toEqual(everyMonths === undefined ? { said: expected } : { said: expected, everyMonths });
  });

  test('not with what depletes no ozone', () => {
    const changed = { jurisdiction: 'EU', refrigerant: 'R-410A', fullChargeKg: 300 } as const;
    expect(said(eu10052009, changed)).toBe('does-not: not-ozone-depleting');
  });
});

describe('what is not on record', () => {
  const rule = us40Cfr84106;
  const small = { fullChargeKg: 2 };

  test.each([
    [{ jurisdiction: null }, 'unknown: no-jurisdiction'],
    [{ refrigerant: null }, 'unknown: no-refrigerant'],
    [{ sector: null }, 'unknown: no-sector'],
    [{ fullChargeKg: null }, 'unknown: no-full-charge'],
  ] as const)('leaves a rule unknown: %j', (changed, expected) => {
    expect(said(rule, changed)).toBe(expected);
  });

  test.each([
    [{ jurisdiction: null, ...small }, 'does-not: below-charge'],
    [{ refrigerant: null, ...small }, 'does-not: below-charge'],
    [{ sector: null, ...small }, 'does-not: below-charge'],
    [{ fullChargeKg: null, sector: 'residential-comfort' }, 'does-not: excluded-sector'],
    [{ fullChargeKg: null, refrigerant: 'R-290' }, 'does-not: low-gwp'],
    [{ fullChargeKg: null, sector: null, refrigerant: null, jurisdiction: 'EU' }, 'does-not: other-jurisdiction'],
    [{ jurisdiction: null, fullChargeKg: null, refrigerant: 'R-22' }, 'does-not: ozone-depleting'],
  ] as const)('unless something certain excludes it: %j', (changed, expected) => {
    expect(said(rule, changed)).toBe(expected);
  });

  test('and where the rule does not hold yet, nothing else matters', () => {
    expect(said(rule, { sector: null, refrigerant: null, fullChargeKg: null }, '2025-12-31')).toBe('does-not: not-yet');
  });

  test.each([
    [eu2024573, { refrigerant: null }, 'unknown: no-refrigerant'],
    [eu2024573, { refrigerant: 'R-410A', fullChargeKg: null }, 'unknown: no-full-charge'],
    [eu10052009, { refrigerant: 'R-22', fullChargeKg: null }, 'unknown: no-full-charge'],
    [eu10052009, { refrigerant: 'R-22', jurisdiction: null }, 'unknown: no-jurisdiction'],
  ] as const)('leaves leak checks unknown, too', (other, changed, expected) => {
    expect(said(other, { jurisdiction: 'EU', ...changed })).toBe(expected);
  });

  test.each([
    ['2026-06-01', 'applies: applies'],
    ['2026-06-02', 'does-not: retired'],
  ])('an appliance that is retired on 2026-06-01, asked on %s', (on, expected) => {
    expect(said(rule, { retiredDay: dayOf('2026-06-01') }, on)).toBe(expected);
  });
});

test.each([
  [15, 15 * poundKg, true],
  [500, 499.9 * poundKg, false],
  [500, 500 * poundKg, true],
  // 500 lb are 226.796 kg, 1500 lb 680.389 kg.
  [500, 226.8, true],
  [500, 226.78, false],
  [1500, 680.39, true],
  [1500, 680.38, false],
])('at least %i lb: %d kg', (lb, massKg, expected) => {
  expect(atLeastLb(massKg, lb)).toBe(expected);
});
