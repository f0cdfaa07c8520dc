import { describe, expect, test } from 'vitest';
import type { ApplianceRecord } from '../../src/accounts/appliance-record.ts';
import { dayOf } from '../../src/numerics/calendar-day.ts';
import { type LeakCheckCase, leakCheckObligations } from '../../src/accounts/leak-check-obligations.ts';
import { eu10052009 } from '../../src/accounts/rules/eu-1005-2009.ts';
import { eu2024573 } from '../../src/accounts/rules/eu-2024-573.ts';
import { anAppliance, aRepair, dutyLines } from './appliance-drafts.ts';

interface Asked {
  readonly on: string;
  readonly every?: number;
  readonly inspected?: readonly string[];
  readonly repairs?: LeakCheckCase['repairs'];
  readonly appliance?: Partial<ApplianceRecord>;
}

function lines({ on, every = 12, inspected = [], repairs = [], appliance = {} }: Asked, rule = eu2024573): string[] {
  const record = anAppliance({
    jurisdiction: 'EU',
    refrigerant: 'R-410A',
    fullChargeKg: 10,
    installedDay: dayOf('2025-01-15'),
    ...appliance,
  });
  const asked = {
    appliance: record,
    repairs,
    inspectionDays: inspected.map(dayOf),
    everyMonths: every,
    today: dayOf(on),
  };
  return dutyLines(leakCheckObligations(asked, rule));
}

describe('the next leak check', () => {
  test.each([
    [{ on: '2026-01-14' }, 'due 2026-01-15 done – due'],
    [{ on: '2026-01-15' }, 'due 2026-01-15 done – due'],
    [{ on: '2026-01-16' }, 'due 2026-01-15 done – overdue'],
    [{ on: '2026-01-16', inspected: ['2025-11-30'] }, 'due 2026-11-30 done – due'],
    [{ on: '2026-01-16', inspected: ['2025-03-01', '2025-11-30'], every: 3 }, 'due 2026-02-28 done – due'],
    [{ on: '2026-01-16', inspected: ['2025-11-30'], every: 24 }, 'due 2027-11-30 done – due'],
    // One that lies ahead is not done yet.
    [{ on: '2026-01-16', inspected: ['2026-01-17'] }, 'due 2026-01-15 done – overdue'],
  ] as const)('%j', (asked, expected) => {
    expect(lines(asked)).toEqual([`leak-check ${expected}`]);
  });

  test('is not known of where neither a check nor the installation is on record', () => {
    expect(lines({ on: '2026-01-16', appliance: { installedDay: null } })).toEqual(['leak-check due – done – unknown']);
  });
});

describe('after a repair', () => {
  const repairs = [aRepair({ found: '2026-02-01', repaired: '2026-02-10' })];

  test.each([
    ['2026-03-09', [], 'done – due'],
    ['2026-03-10', [], 'done – due'],
    ['2026-03-11', [], 'done – overdue'],
    ['2026-04-01', ['2026-03-10'], 'done 2026-03-10 done'],
    ['2026-04-01', ['2026-03-11'], 'done 2026-03-11 done-late'],
    // Not before it ran for a day.
    ['2026-03-11', ['2026-02-10'], 'done – overdue'],
  ])('it is checked again within a month: asked on %s, checked on %s', (on, inspected, expected) => {
    const [, recheck] = lines({ on, inspected, repairs });
    expect(recheck).toBe(`recheck due 2026-03-10 ${expected}`);
  });

  test('a follow-up verification is such a check', () => {
    const verified = [aRepair({ repaired: '2026-02-10', followUp: '2026-02-20' })];
    expect(lines({ on: '2026-03-11', repairs: verified })[1]).toBe('recheck due 2026-03-10 done 2026-02-20 done');
  });

  test('no check is due before the repair is done', () => {
    expect(lines({ on: '2026-02-09', repairs })).toHaveLength(1);
    expect(lines({ on: '2026-02-10', repairs })).toHaveLength(2);
  });

  test.each([
    ['2026-02-15', undefined, 'done – due'],
    ['2026-02-16', undefined, 'done – overdue'],
    ['2026-03-01', '2026-02-15', 'done 2026-02-15 done'],
    ['2026-03-01', '2026-02-16', 'done 2026-02-16 done-late'],
  ])('one that depletes ozone is repaired within 14 days: asked on %s, repaired on %s', (on, repaired, expected) => {
    const own = [aRepair({ found: '2026-02-01', ...(repaired === undefined ? {} : { repaired }) })];
    const found = lines({ on, repairs: own, appliance: { refrigerant: 'R-22' } }, eu10052009);
    expect(found[1]).toBe(`repair due 2026-02-15 ${expected}`);
  });
});

describe('leak detection', () => {
  const perTonneKg = 1000 / 2087.5;
  const duty = (co2eT: number, hasDetection: boolean | null) =>
    lines({ on: '2026-01-16', appliance: { fullChargeKg: co2eT * perTonneKg, hasDetection } })[1];

  test('must be from 500 t on', () => {
    expect(duty(499.9, false)).toBeUndefined();
    expect(duty(500.1, false)).toBe('leak-detection due 2025-01-15 done – overdue');
    expect(duty(500.1, true)).toBe('leak-detection due 2025-01-15 done 2025-01-15 done');
    expect(duty(500.1, null)).toBe('leak-detection due 2025-01-15 done – unknown');
  });
});
