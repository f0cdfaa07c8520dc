import { describe, expect, test } from 'vitest';
import { leakAdditions } from '../../src/accounts/additions.ts';
import { leakYears } from '../../src/accounts/appliance-leaks.ts';
import { dayOf } from '../../src/numerics/calendar-day.ts';
import { us40Cfr82157 } from '../../src/accounts/rules/us-40-cfr-82-157.ts';
import { us40Cfr84106 } from '../../src/accounts/rules/us-40-cfr-84-106.ts';
import { added, ratesOf, firstOver } from './appliance-drafts.ts';

describe('the annualising method', () => {
  test.each([
    [364, 364, 36.5 / 364],
    [365, 365, 0.1],
    [366, 365, 0.1],
    [400, 365, 0.1],
  ])('takes 10 of 100 kg %i days after the last addition over %i', (day, days, rate) => {
    const [event] = ratesOf([added(day, 10)]);
    expect([event.days, event.daysFrom]).toEqual([days, 'last-addition']);
    expect(event.annualising).toBeCloseTo(rate, 14);
  });

  test('takes several additions for one leak together, over the days to the last of them', () => {
    // 2 + 3 kg of 100 kg over the 73 days from day 100 on: 5 % in a fifth of a year.
    const events = ratesOf([added(100, 100, null, 'install'), added(130, 2, 'L'), added(173, 3, 'L')]);
    expect(events).toMatchObject([{ days: 73, annualising: 0.25 }]);
  });

  test('takes the first addition of which nothing before is on record over a year', () => {
    expect(ratesOf([added(500, 10)], { firstDay: null })).toMatchObject([
      { days: 365, daysFrom: 'none-before', annualising: 0.1 },
    ]);
  });

  test('takes a second leak over the days since refrigerant was added last, whatever for', () => {
    const events = ratesOf([added(100, 1, 'L'), added(110, 1, 'M')]);
    expect(events.map(({ days }) => days)).toEqual([100, 10]);
    // 1 % in 100 days, and 1 % in 10 days.
    expect(events[0].annualising).toBeCloseTo(0.0365, 14);
    expect(events[1].annualising).toBeCloseTo(0.365, 14);
  });
});

describe('the rolling method', () => {
  test.each([
    [365, 3],
    [366, 2],
  ])('counts an addition %i days ago or not', (ago, kg) => {
    const events = ratesOf([added(1000 - ago, 1), added(1000, 2)]);
    expect(events.at(-1)).toMatchObject({ rollingKg: kg, rolling: kg / 100 });
  });

  test('counts what lies after the day, for nothing', () => {
    expect(ratesOf([added(100, 1), added(200, 2)]).map(({ rollingKg }) => rollingKg)).toEqual([1, 3]);
  });

  test('counts only what came after the last successful follow-up verification', () => {
    const additions = [added(800, 1), added(900, 2), added(1000, 4)];
    const last = (verifiedDays: number[]) => ratesOf(additions, { verifiedDays }).at(-1)?.rollingKg;
    expect(last([])).toBe(7);
    expect(last([799])).toBe(7);
    expect(last([850])).toBe(6);
    expect(last([850, 950])).toBe(4);
    expect(last([950, 850])).toBe(4);
    // One long ago shortens nothing, and one after it is not known of yet.
    expect(last([500])).toBe(7);
    expect(last([1001])).toBe(7);
    // On the very day of an addition: for the ones after it, not for it.
    expect(last([1000])).toBe(7);
    expect(last([900])).toBe(4);
  });

  test('says after which day it counts', () => {
    expect(ratesOf([added(1000, 1)]).at(0)?.rollingAfterDay).toBe(1000 - 366);
    expect(ratesOf([added(1000, 1)], { verifiedDays: [850] }).at(0)?.rollingAfterDay).toBe(850);
  });
});

describe('the first addition under the rule of 2026', () => {
  const before = added('2025-12-20', 5);
  const rule = us40Cfr84106;

  test('is taken over 365 days by the annualising method, and alone by the rolling one', () => {
    const events = ratesOf([before, added('2026-01-09', 10)], { rule });
    expect(events).toMatchObject([
      { days: 365, daysFrom: 'first-under-rule', annualising: 0.1, rollingKg: 10, rolling: 0.1 },
    ]);
  });

  test('the one after it counts from it', () => {
    const events = ratesOf([before, added('2026-01-09', 10), added('2026-03-23', 1)], { rule });
    // 73 days: 1 % in a fifth of a year; and 11 kg since the first of January.
    expect(events[1]).toMatchObject({ days: 73, daysFrom: 'last-addition', rollingKg: 11 });
    expect(events[1].annualising).toBeCloseTo(0.05, 14);
  });

  test.each([
    ['2025-12-31', 0],
    ['2026-01-01', 1],
  ])('an addition on %s is one of %i', (on, count) => {
    const events = ratesOf([added(on, 10)], { rule });
    expect(events.map(({ rollingKg }) => rollingKg)).toEqual(Array.from({ length: count }, () => 10));
  });

  test('of a leak that began before, only what came under the rule counts', () => {
    const events = ratesOf([added('2025-12-20', 5, 'L'), added('2026-02-01', 10, 'L')], { rule });
    expect(events).toMatchObject([{ days: 365, annualising: 0.1, rollingKg: 10 }]);
    expect(events[0].addition).toMatchObject({ day: dayOf('2026-02-01'), kg: 10 });
  });

  test('has no such word in the rule on what depletes ozone, nor by the definitions alone', () => {
    const additions = [before, added('2026-01-09', 10)];
    for (const other of [us40Cfr82157, undefined]) {
      expect(ratesOf(additions, { rule: other }).at(-1)).toMatchObject({ days: 20, rollingKg: 15 });
    }
  });
});

describe('the day on which a trigger was passed', () => {
  test('is none at exactly the trigger, and that day just above it', () => {
    const over = (kg: number) => firstOver(ratesOf([added(365, kg)], { trigger: 0.2 })[0]);
    expect(over(20)).toEqual({ annualising: null, rolling: null });
    expect(over(20.001)).toEqual({ annualising: 365, rolling: 365 });
  });

  test('is that of the part of a leak with which it was passed', () => {
    const [event] = ratesOf([added(400, 15, 'L'), added(420, 4, 'L'), added(440, 2, 'L')], { trigger: 0.2 });
    expect(firstOver(event)).toEqual({ annualising: 440, rolling: 440 });
    expect(
      firstOver(ratesOf([added(400, 15, 'L'), added(420, 6, 'L'), added(440, 2, 'L')], { trigger: 0.2 })[0]),
    ).toEqual({
      annualising: 420,
      rolling: 420,
    });
  });

  test('goes by each method for itself', () => {
    // 8 kg in 73 days are 40 % a year, and 8 % of the charge.
    expect(firstOver(ratesOf([added(73, 8)], { trigger: 0.2 })[0])).toEqual({ annualising: 73, rolling: null });
    // Three times 8 kg, 200 days apart: 14.6 % a year each, and 16 % over any 365 days.
    const thrice = ratesOf([added(200, 8), added(400, 8), added(600, 8)], { trigger: 0.15 });
    expect(thrice.map(firstOver)).toEqual([
      { annualising: null, rolling: null },
      { annualising: null, rolling: 400 },
      { annualising: null, rolling: 600 },
    ]);
  });

  test('is none where no trigger is given', () => {
    expect(firstOver(ratesOf([added(10, 1000)])[0])).toEqual({ annualising: null, rolling: null });
  });
});

describe('leakYears', () => {
  test('adds up what was put in for leaks by calendar year, whatever the rates', () => {
    const leaks = leakAdditions(
      [
        added('2025-06-01', 100, null, 'install'),
        added('2025-12-31', 10, 'L'),
        added('2026-01-01', 20, 'L'),
        added('2026-12-31', 105),
        added('2027-01-01', 1),
      ],
      null,
    );
    expect(leakYears(leaks, 100)).toEqual([
      { year: 2025, kg: 10, ratio: 0.1 },
      { year: 2026, kg: 125, ratio: 1.25 },
      { year: 2027, kg: 1, ratio: 0.01 },
    ]);
  });
});

test('a full charge of nothing is refused', () => {
  expect(() => ratesOf([added(10, 1)], { fullChargeKg: 0 })).toThrow('full charge out of range: must be above 0');
});
