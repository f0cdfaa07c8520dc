import { describe, expect, test } from 'vitest';
import { leakAdditions } from '../../src/accounts/additions.ts';
import { isOverTrigger, reachesRatio } from '../../src/accounts/leak-rate.ts';
import { us40Cfr84106 } from '../../src/accounts/rules/us-40-cfr-84-106.ts';
import { added, aRepair, dutiesOf, dutyLines, leakShape, ratesOf } from './appliance-drafts.ts';

const rule = us40Cfr84106;
type Asked = Omit<Parameters<typeof dutiesOf>[0], 'rule'>;
const lines = (asked: Asked, kind?: Parameters<typeof dutyLines>[1]) => dutyLines(dutiesOf({ rule, ...asked }), kind);

describe('a rate', () => {
  test('of just the trigger is not over it, whatever a computer makes of tenths of a kilogram', () => {
    expect((0.1 + 1.1) / 12).toBeGreaterThan(0.1);
    expect(isOverTrigger((0.1 + 1.1) / 12, 0.1)).toBe(false);
    expect(isOverTrigger(0.1000001, 0.1)).toBe(true);
    expect([reachesRatio(1.25 - 1e-12, 1.25), reachesRatio(1.2499, 1.25)]).toEqual([true, false]);
  });

  test('of a leak that goes on after the rule began is taken from the last addition under it', () => {
    // M on 15 January is the first under the rule; L on 1 February comes 17 days after it: 1 ÷ 100 × 365 ÷ 17.
    const additions = [
      added('2025-11-01', 50, null, 'install'),
      added('2025-12-01', 1, 'L'),
      added('2026-01-15', 1, 'M'),
      added('2026-02-01', 1, 'L'),
    ];
    const events = ratesOf(additions, { rule, firstDay: null });
    const told = events.map(({ addition: { leakId }, days, daysFrom }) => `${leakId} ${days} ${daysFrom}`);
    expect(new Set(told)).toEqual(new Set(['L 17 last-addition', 'M 365 first-under-rule']));
    expect(events.find(({ addition }) => addition.leakId === 'L')?.annualising).toBeCloseTo(365 / 1700, 10);
  });
});

describe('additions of one day', () => {
  test('join a leak that began earlier, so that none of them is taken over a day or none', () => {
    const additions = [added(0, 9, null, 'install'), added(100, 1, 'L'), added(101, 1, 'L'), added(101, 1)];
    expect(leakAdditions(additions, null).map(leakShape)).toEqual([
      { day: 100, lastDay: 101, kg: 3, leakId: 'L', previousDay: 0 },
    ]);
  });

  test('come to the same in whatever order they stand', () => {
    const season = [added(50, -5, null, 'seasonal'), added(50, 5, null, 'seasonal')];
    expect(leakAdditions(season, 0)).toEqual([]);
    expect(leakAdditions(season.toReversed(), 0)).toEqual([]);
    const two = [added(60, 1, 'B'), added(60, 2, 'A')];
    expect(leakAdditions(two, 0)).toEqual(leakAdditions(two.toReversed(), 0));
  });

  test('count less what was recovered on it', () => {
    const recharged = [added(70, -5), added(70, 5.5)];
    expect(leakAdditions(recharged, 0).map(({ kg }) => kg)).toEqual([0.5]);
    // Recovered within the week before, too; of what was recovered earlier nobody says that it was put back.
    expect(leakAdditions([added(63, -5), added(70, 5.5)], 0).map(({ kg }) => kg)).toEqual([0.5]);
    expect(leakAdditions([added(62, -5), added(70, 5.5)], 0).map(({ kg }) => kg)).toEqual([5.5]);
  });
});

describe('a leak that runs long', () => {
  test('is told by what was added within a year', () => {
    // 1 kg a month into 100 kg for three years: some 13 in 365 days, both ends included.
    const monthly = Array.from({ length: 36 }, (_, month) => added(30 + 30 * month, 1, 'L'));
    const last = ratesOf(monthly).at(-1);
    expect(last?.annualising).toBeCloseTo(0.13, 10);
    expect(last?.days).toBe(365);
  });

  test('begins with its first addition where nothing tells since when it had leaked', () => {
    // Installed nobody knows when: the first 5 kg over 365 days, the next 5 kg over the 50 days since.
    const events = ratesOf([added(100, 5, 'L'), added(150, 5, 'L')], { firstDay: null });
    expect(events.map(({ days, daysFrom, annualising }) => [days, daysFrom, annualising])).toEqual([
      [365, 'none-before', 0.05],
      [50, 'last-addition', (5 / 100) * (365 / 50)],
    ]);
  });
});

describe('duties of leaks that come again', () => {
  const mended = aRepair({ leakId: 'L', repaired: '2026-03-20', initial: '2026-03-20', followUp: '2026-03-25' });
  const again = [added('2026-03-01', 30, 'L'), added('2026-09-01', 50, 'L')];

  test('a leak of the same name that is over again after its repair is to be repaired again', () => {
    expect(lines({ on: '2026-12-10', additions: again, repairs: [mended] }, 'repair')).toEqual([
      'repair due 2026-03-31 done 2026-03-20 done',
      'repair due 2026-10-01 done – overdue',
    ]);
  });

  test('a repair answers what is filled up within a week of it, and nothing later', () => {
    const repairedOn = (on: string) =>
      lines({ on: '2026-03-20', additions: [added('2026-03-10', 30)], repairs: [aRepair({ repaired: on })] }, 'repair');
    expect(repairedOn('2026-03-03')).toEqual(['repair due 2026-04-09 done 2026-03-03 done']);
    expect(repairedOn('2026-03-02')).toEqual(['repair due 2026-04-09 done – due']);
  });

  test('of two leaks each is to be repaired', () => {
    const additions = [added('2026-03-01', 30, 'A'), added('2026-03-15', 30, 'B')];
    const repairs = [aRepair({ leakId: 'A', repaired: '2026-03-20' })];
    expect(lines({ on: '2026-07-10', additions, repairs }, 'repair')).toEqual([
      'repair due 2026-03-31 done 2026-03-20 done',
      'repair due 2026-04-14 done – overdue',
    ]);
  });

  test('four inspections in four days are one of a quarter', () => {
    const inspected = ['2026-03-05', '2026-03-06', '2026-03-07', '2026-03-08'];
    const asked = { on: '2026-03-20', additions: [added('2026-03-01', 100)], inspected };
    expect(lines({ ...asked, appliance: { fullChargeKg: 230 } }, 'inspection')).toEqual([
      'inspection due 2026-06-01 done 2026-03-05 done',
      'inspection due 2026-09-01 done – due',
      'inspection due 2026-12-01 done – due',
      'inspection due 2027-03-01 done – due',
    ]);
  });

  test('inspections go on to a year after the last time over the trigger, and a missed one stays missed', () => {
    const additions = [added('2026-03-01', 100), added('2026-08-01', 100)];
    expect(
      lines(
        { on: '2026-12-10', additions, appliance: { fullChargeKg: 230 }, inspected: ['2026-08-20', '2026-11-20'] },
        'inspection',
      ),
    ).toEqual([
      'inspection due 2026-06-01 done 2026-08-20 done-late',
      'inspection due 2026-09-01 done 2026-11-20 done-late',
      'inspection due 2026-12-01 done – overdue',
      'inspection due 2027-03-01 done – due',
      'inspection due 2027-06-01 done – due',
    ]);
  });

  test('what lies after the day that is asked is not known yet', () => {
    expect(lines({ on: '2026-03-10', additions: again, repairs: [mended] })).toEqual([
      'repair due 2026-03-31 done – due',
      'initial-verification due 2026-03-31 done – due',
      'inspection due 2027-03-01 done – due',
    ]);
  });

  test('the follow-up counts from the return to operation, where that alone is on record', () => {
    const repairs = [aRepair({ repaired: '2026-03-20', operation: '2026-03-22' })];
    expect(
      lines({ on: '2026-03-25', additions: [added('2026-03-01', 30)], repairs }, 'follow-up-verification'),
    ).toEqual(['follow-up-verification due 2026-04-01 done – due']);
  });

  test('a repair without a day of its own was done by its verification', () => {
    const repairs = [aRepair({ initial: '2026-03-20', followUp: '2026-03-25' })];
    expect(lines({ on: '2026-05-01', additions: [added('2026-03-01', 30)], repairs }).slice(0, 3)).toEqual([
      'repair due 2026-03-31 done 2026-03-20 done',
      'initial-verification due 2026-03-31 done 2026-03-20 done',
      'follow-up-verification due 2026-03-30 done 2026-03-25 done',
    ]);
  });
});
