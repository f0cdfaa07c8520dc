import { describe, expect, test } from 'vitest';
import { us40Cfr82157 } from '../../src/accounts/rules/us-40-cfr-82-157.ts';
import { us40Cfr84106 } from '../../src/accounts/rules/us-40-cfr-84-106.ts';
import type { ApplianceRecord } from '../../src/accounts/appliance-record.ts';
import { dayOf } from '../../src/numerics/calendar-day.ts';
import { added, aRepair, type AskedDuties, dutiesOf, dutyLines, poundKg } from './appliance-drafts.ts';

const rule = us40Cfr84106;
/** Over the 20 % of commercial refrigeration: 30 of 100 kg, on record as the first. */
const over = [added('2026-03-01', 30)];
const lines = (asked: Partial<AskedDuties>, kind?: Parameters<typeof dutyLines>[1]) =>
  dutyLines(dutiesOf({ rule, on: '2026-03-10', additions: over, ...asked }), kind);

test('nothing is asked at exactly the trigger, and a repair just above it', () => {
  expect(lines({ additions: [added('2026-03-01', 20)] })).toEqual([]);
  expect(lines({ additions: [added('2026-03-01', 20.1)] }, 'repair')).toEqual(['repair due 2026-03-31 done – due']);
});

describe('the repair, 30 days', () => {
  test.each([
    // March has 31 days: 30 days after the first is the 31st.
    ['2026-03-30', undefined, 'done – due'],
    ['2026-03-31', undefined, 'done – due'],
    ['2026-04-01', undefined, 'done – overdue'],
    ['2026-04-30', '2026-03-31', 'done 2026-03-31 done'],
    ['2026-04-30', '2026-04-01', 'done 2026-04-01 done-late'],
    ['2026-03-20', '2026-03-21', 'done – due'],
    ['2026-04-01', '2026-04-02', 'done – overdue'],
  ])('asked on %s, repaired on %s', (on, repaired, expected) => {
    const repairs = repaired === undefined ? [] : [aRepair({ repaired })];
    expect(lines({ on, repairs }, 'repair')).toEqual([`repair due 2026-03-31 ${expected}`]);
  });

  test.each([
    ['industrial-process', true, '2026-06-29'],
    ['industrial-process', false, '2026-03-31'],
    ['commercial-refrigeration', true, '2026-03-31'],
    ['comfort', true, '2026-03-31'],
  ] as const)('120 with a shutdown of an industrial process alone: %s, shutdown %s', (sector, isShutdown, due) => {
    // 31 % is over each sector's trigger; 120 days after 2026-03-01: 30 in March, 30, 31, 29 in June.
    const asked = {
      on: '2026-07-10',
      appliance: { sector },
      additions: [added('2026-03-01', 31)],
      repairs: [aRepair({ repaired: '2026-06-30', isShutdown })],
    };
    expect(lines(asked, 'repair')).toEqual([`repair due ${due} done 2026-06-30 done-late`]);
    expect(lines(asked, 'initial-verification')).toEqual([`initial-verification due ${due} done – overdue`]);
  });

  test('a plan to retrofit or retire is asked for where it is overdue, and only then', () => {
    expect(lines({ on: '2026-03-31' }, 'retrofit-or-retirement-plan')).toEqual([]);
    expect(lines({ on: '2026-04-01' }, 'retrofit-or-retirement-plan')).toHaveLength(1);
    expect(
      lines({ on: '2026-04-30', repairs: [aRepair({ repaired: '2026-04-01' })] }, 'retrofit-or-retirement-plan'),
    ).toEqual([]);
  });

  test('what goes over again before the repair is the same duty; after it, another', () => {
    const additions = [...over, added('2026-03-20', 30), added('2026-05-10', 30)];
    const repairs = [aRepair({ repaired: '2026-03-25' })];
    expect(lines({ on: '2026-05-12', additions, repairs }, 'repair')).toEqual([
      'repair due 2026-03-31 done 2026-03-25 done',
      'repair due 2026-06-09 done – due',
    ]);
    expect(lines({ on: '2026-05-12', additions }, 'repair')).toEqual(['repair due 2026-03-31 done – overdue']);
    // What is put in on the day of the repair makes up for what leaked before it.
    const sameDay = [aRepair({ repaired: '2026-03-20' })];
    expect(lines({ on: '2026-04-12', additions, repairs: sameDay }, 'repair')).toEqual([
      'repair due 2026-03-31 done 2026-03-20 done',
    ]);
  });

  test('of another leak answers nothing', () => {
    const asked = { on: '2026-03-20', additions: [added('2026-03-01', 30, 'L')] };
    const repaired = (leakId: string) =>
      lines({ ...asked, repairs: [aRepair({ leakId, repaired: '2026-03-10' })] }, 'repair');
    expect(repaired('L')).toEqual(['repair due 2026-03-31 done 2026-03-10 done']);
    expect(repaired('M')).toEqual(['repair due 2026-03-31 done – due']);
  });

  test('goes by the method that was chosen', () => {
    // Thrice 8 of 100 kg, 100 days apart: 8 % a year (the first under the rule), then 29.2 %; all three within a year are 24 %.
    const additions = ['2026-02-01', '2026-05-12', '2026-08-20'].map((on) => added(on, 8));
    const asked = { on: '2026-09-01', additions };
    expect(lines({ ...asked, method: 'annualising' }, 'repair')).toEqual(['repair due 2026-06-11 done – overdue']);
    expect(lines({ ...asked, method: 'rolling' }, 'repair')).toEqual(['repair due 2026-09-19 done – due']);
  });
});

describe('verifications', () => {
  test('the first in the time of the repair', () => {
    const repairs = (initial: string) => [aRepair({ repaired: '2026-03-20', initial })];
    const at = (initial: string) => lines({ on: '2026-05-01', repairs: repairs(initial) }, 'initial-verification');
    expect(at('2026-03-31')).toEqual(['initial-verification due 2026-03-31 done 2026-03-31 done']);
    expect(at('2026-04-01')).toEqual(['initial-verification due 2026-03-31 done 2026-04-01 done-late']);
  });

  test.each([
    ['2026-03-29', undefined, undefined, '2026-03-30', 'done – due'],
    ['2026-03-30', undefined, undefined, '2026-03-30', 'done – due'],
    ['2026-03-31', undefined, undefined, '2026-03-30', 'done – overdue'],
    ['2026-05-01', '2026-03-30', undefined, '2026-03-30', 'done 2026-03-30 done'],
    ['2026-05-01', '2026-03-31', undefined, '2026-03-30', 'done 2026-03-31 done-late'],
    // From the return to normal operation on, where that is later.
    ['2026-05-01', '2026-04-05', '2026-03-26', '2026-04-05', 'done 2026-04-05 done'],
    ['2026-05-01', '2026-04-06', '2026-03-26', '2026-04-05', 'done 2026-04-06 done-late'],
  ])('the second within 10 days, asked on %s, done on %s, back on %s', (on, followUp, operation, due, expected) => {
    const repair = aRepair({
      repaired: '2026-03-20',
      initial: '2026-03-20',
      ...(followUp === undefined ? {} : { followUp }),
      ...(operation === undefined ? {} : { operation }),
    });
    expect(lines({ on, repairs: [repair] }, 'follow-up-verification')).toEqual([
      `follow-up-verification due ${due} ${expected}`,
    ]);
  });

  test('the second is not known of without the day of the first', () => {
    const repairs = [aRepair({ repaired: '2026-03-20' })];
    expect(lines({ on: '2026-04-20', repairs }, 'follow-up-verification')).toEqual([
      'follow-up-verification due – done – unknown',
    ]);
  });

  test('none is asked before there is a repair', () => {
    expect(lines({}, 'follow-up-verification')).toEqual([]);
  });
});

describe('inspections', () => {
  const charge = (lb: number): Partial<ApplianceRecord> => ({ fullChargeKg: lb * poundKg });
  const quarterly = ['2026-06-01', '2026-09-01', '2026-12-01', '2027-03-01'];
  const dues = (asked: Partial<AskedDuties>) =>
    lines({ additions: [added('2026-03-01', 400)], ...asked }, 'inspection').map((line) => line.split(' ')[2]);

  test.each([
    ['commercial-refrigeration', 499.9, ['2027-03-01']],
    ['commercial-refrigeration', 500, quarterly],
    ['industrial-process', 499.9, ['2027-03-01']],
    ['industrial-process', 500, quarterly],
    ['comfort', 500, ['2027-03-01']],
    ['commercial-refrigeration', 15, ['2027-03-01']],
  ] as const)('of %s with %d lb', (sector, lb, expected) => {
    expect(dues({ appliance: { sector, ...charge(lb) } })).toEqual(expected);
  });

  test.each([
    ['commercial-refrigeration', 499.9, ['2027-03-01']],
    ['commercial-refrigeration', 500, quarterly],
    ['commercial-refrigeration', 50, ['2027-03-01']],
    ['comfort', 500, ['2027-03-01']],
  ] as const)('of R-22 in %s with %d lb', (sector, lb, expected) => {
    const appliance = { refrigerant: 'R-22', sector, ...charge(lb) };
    expect(dues({ rule: us40Cfr82157, appliance })).toEqual(expected);
  });

  test.each([
    ['2027-02-28', [], 'done – due'],
    ['2027-03-01', [], 'done – due'],
    ['2027-03-02', [], 'done – overdue'],
    ['2027-03-02', ['2027-03-01'], 'done 2027-03-01 done'],
    ['2027-04-02', ['2027-03-02'], 'done 2027-03-02 done-late'],
    // One before the trigger was passed, and one that lies ahead, are none.
    ['2027-03-02', ['2026-02-28', '2027-03-03'], 'done – overdue'],
  ])('a yearly one asked on %s, inspected on %s', (on, inspected, expected) => {
    expect(lines({ on, inspected }, 'inspection')).toEqual([`inspection due 2027-03-01 ${expected}`]);
  });

  test('each of four quarters by one of its own', () => {
    const appliance = charge(500);
    const asked = { on: '2027-06-01', appliance, additions: [added('2026-03-01', 100)] };
    expect(
      lines({ ...asked, inspected: ['2026-05-20', '2026-08-20', '2026-12-05', '2027-02-20'] }, 'inspection'),
    ).toEqual([
      'inspection due 2026-06-01 done 2026-05-20 done',
      'inspection due 2026-09-01 done 2026-08-20 done',
      'inspection due 2026-12-01 done 2026-12-05 done-late',
      'inspection due 2027-03-01 done 2027-02-20 done',
    ]);
    expect(
      lines({ ...asked, inspected: ['2026-05-20', '2026-11-20'] }, 'inspection').map((line) => line.split(' ')[5]),
    ).toEqual(['done', 'done-late', 'overdue', 'overdue']);
  });

  test('go on for a year after the last time over the trigger', () => {
    const additions = [...over, added('2026-06-15', 30)];
    expect(lines({ on: '2026-07-01', additions }, 'inspection')).toEqual(['inspection due 2027-03-01 done – due']);
    const quarterly = { on: '2026-07-01', additions: [added('2026-03-01', 100), added('2026-06-15', 100)] };
    expect(lines({ ...quarterly, appliance: { fullChargeKg: 230 } }, 'inspection')).toHaveLength(5);
  });

  test('are not said to be overdue where leak detection may stand in', () => {
    const asked = { on: '2027-03-02', appliance: { hasDetection: true } };
    expect(lines(asked, 'inspection')).toEqual(['inspection due 2027-03-01 done – unknown']);
  });
});

describe('the report on what leaks chronically', () => {
  const year = (kg: number, on: string) =>
    lines(
      { on, additions: [added('2026-03-01', kg - 60), added('2026-12-31', 60)], appliance: { fullChargeKg: 100 } },
      'chronic-leak-report',
    );

  test('is due at 125 % of the full charge in a calendar year, not below', () => {
    expect(year(124.9, '2026-12-31')).toEqual([]);
    expect(year(125, '2026-12-31')).toEqual(['chronic-leak-report due 2027-03-01 done – due']);
  });

  test.each([
    ['2027-02-28', 'due'],
    ['2027-03-01', 'due'],
    // There is no table of reports that were sent.
    ['2027-03-02', 'unknown'],
  ])('by the first of March: asked on %s', (on, state) => {
    expect(year(125, on)).toEqual([`chronic-leak-report due 2027-03-01 done – ${state}`]);
  });

  test('goes by the calendar year, not by the rate', () => {
    // 75 % of the charge in each of two years; and 365 % a year by the annualising method, but 31 % of the charge.
    expect(
      lines({ on: '2027-02-01', additions: [added('2026-12-31', 75), added('2027-01-01', 75)] }, 'chronic-leak-report'),
    ).toEqual([]);
    expect(
      lines({ on: '2026-04-01', additions: [added('2026-03-01', 1), added('2026-03-31', 30)] }, 'chronic-leak-report'),
    ).toEqual([]);
  });

  test('none for a year before the rule', () => {
    expect(lines({ on: '2026-02-01', additions: [added('2025-12-31', 130)] }, 'chronic-leak-report')).toEqual([]);
  });
});

describe('automatic leak detection', () => {
  const asked = (appliance: Partial<ApplianceRecord>, on = '2026-06-01') =>
    lines({ on, additions: [], appliance: { fullChargeKg: 1500 * poundKg, hasDetection: false, ...appliance } });
  const installed = (date: string) => ({ installedDay: dayOf(date) });

  test.each([
    ['2016-12-31', []],
    ['2017-01-01', ['leak-detection due 2027-01-01 done – due']],
    ['2025-12-31', ['leak-detection due 2027-01-01 done – due']],
    // 30 days after the installation.
    ['2026-01-01', ['leak-detection due 2026-01-31 done – overdue']],
    ['2026-05-10', ['leak-detection due 2026-06-09 done – due']],
  ])('installed on %s', (date, expected) => {
    expect(asked(installed(date))).toEqual(expected);
  });

  test('from 1500 lb on, in refrigeration and process cooling alone', () => {
    const there = (changed: Partial<ApplianceRecord>) => asked({ ...installed('2020-01-01'), ...changed }).length;
    expect(there({})).toBe(1);
    expect(there({ fullChargeKg: 1499.9 * poundKg })).toBe(0);
    expect(there({ sector: 'industrial-process' })).toBe(1);
    expect(there({ sector: 'comfort' })).toBe(0);
  });

  test('is there, or is not known to be', () => {
    expect(asked({ ...installed('2020-01-01'), hasDetection: true })[0]).toMatch(/ done$/);
    expect(asked({ ...installed('2020-01-01'), hasDetection: null }, '2027-01-02')[0]).toMatch(/ unknown$/);
    expect(asked({ ...installed('2020-01-01') }, '2027-01-02')[0]).toMatch(/ overdue$/);
    expect(asked({ installedDay: null })[0]).toMatch(/ unknown$/);
  });
});
