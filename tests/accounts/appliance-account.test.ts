import { describe, expect, test } from 'vitest';
import { applianceAccount } from '../../src/accounts/appliance-account.ts';
import { fullChargeBasis, jurisdictionOf } from '../../src/accounts/appliance-record.ts';
import { dayOf } from '../../src/numerics/calendar-day.ts';
import { anAppliance, aRepair, recorded, firstOver } from './appliance-drafts.ts';

const today = dayOf('2026-12-31');

describe('what was put into an appliance', () => {
  test('is net of what the same visit took out', () => {
    const { additions, apart } = applianceAccount(
      anAppliance(),
      [recorded('2026-03-01', 3, { recoveredKg: 1 })],
      [],
      today,
    );
    expect(additions.map(({ kg }) => kg)).toEqual([2]);
    expect(apart).toEqual([]);
  });

  test.each([
    ['no-day', recorded(null, 3)],
    ['no-weights', recorded('2026-03-01', null)],
    ['after-retirement', recorded('2026-06-02', 3)],
    // Emptied first: how much of it was only put back is not known.
    ['recovered-not-known', recorded('2026-03-01', 3, { wasEmpty: true })],
  ])('is kept apart: %s', (reason, one) => {
    const { additions, leaks, apart } = applianceAccount(
      anAppliance({ retiredDay: dayOf('2026-06-01') }),
      [one],
      [],
      today,
    );
    expect(apart).toEqual([{ source: one.source, reason, kg: one.chargedKg, day: one.day }]);
    expect([additions, leaks]).toEqual([[], []]);
  });

  test.each([
    ['on the very day of retirement', recorded('2026-06-01', 3)],
    [
      'of an empty system, net of what was recovered from it',
      recorded('2026-03-01', 7, { wasEmpty: true, recoveredKg: 4 }),
    ],
    ['of an empty system that is installed', recorded('2026-03-01', 3, { wasEmpty: true, purpose: 'install' })],
  ])('counts %s', (_, one) => {
    const { additions, apart } = applianceAccount(anAppliance({ retiredDay: dayOf('2026-06-01') }), [one], [], today);
    expect([additions.map(({ kg }) => kg), apart]).toEqual([[3], []]);
  });

  test('is not known of before its day', () => {
    const all = [recorded('2026-03-01', 1), recorded('2026-03-02', 2), recorded('2026-03-03', 4)];
    const { additions, apart } = applianceAccount(anAppliance(), all, [], dayOf('2026-03-02'));
    expect([additions.map(({ kg }) => kg), apart]).toEqual([[1, 2], []]);
  });

  test('counts from the day of installation', () => {
    const appliance = anAppliance({ installedDay: dayOf('2026-02-01') });
    const { events } = applianceAccount(appliance, [recorded('2026-03-01', 2.8)], [], today);
    // 2.8 of 100 kg in 28 days: a thousandth a day.
    expect(events).toMatchObject([{ days: 28, daysFrom: 'last-addition' }]);
    expect(events[0].annualising).toBeCloseTo(0.365, 12);
  });
});

describe('the rules', () => {
  const additions = [recorded('2026-03-01', 30), recorded('2026-05-01', 1)];

  test('tell rates only where they apply', () => {
    const { ruled } = applianceAccount(anAppliance(), additions, [], today);
    expect(ruled.map(({ rule, verdict, events }) => [rule.id, verdict.state, events.length])).toEqual([
      ['us-40-cfr-82-157', 'does-not', 0],
      ['us-40-cfr-84-106', 'applies', 2],
      ['eu-2024-573', 'does-not', 0],
      ['eu-1005-2009', 'does-not', 0],
    ]);
    expect(firstOver(ruled[1].events[0])).toEqual({ annualising: dayOf('2026-03-01'), rolling: dayOf('2026-03-01') });
  });

  test('take a successful follow-up verification into the rolling average', () => {
    const rolling = (followUp?: string) =>
      applianceAccount(
        anAppliance(),
        additions,
        followUp === undefined ? [] : [aRepair({ followUp })],
        today,
      ).events.map(({ rollingKg }) => rollingKg);
    expect(rolling()).toEqual([30, 31]);
    expect(rolling('2026-04-01')).toEqual([30, 1]);
  });

  test('without a full charge there is no rate and no year', () => {
    const { leaks, events, years } = applianceAccount(anAppliance({ fullChargeKg: null }), additions, [], today);
    expect([leaks.length, events, years]).toEqual([2, [], []]);
  });
});

test.each([
  ['Maker', 'maker'],
  ['nameplate', 'maker'],
  ['computed', 'calculated'],
  [' Measured ', 'measured'],
  ['midpoint', 'range'],
  ['a guess', null],
  ['', null],
  [null, null],
  [undefined, null],
])('a full charge known by %j is %s', (written, basis) => {
  expect(fullChargeBasis(written)).toBe(basis);
});

test.each([
  ['US', 'US'],
  ['us-ca', 'US'],
  ['usa', 'US'],
  ['US_TX', 'US'],
  ['eu/de', 'EU'],
  ['EU', 'EU'],
  ['CA', null],
  ['EUX', null],
  ['USX', null],
  ['', null],
  [null, null],
])('the rules of %j are those of %s', (written, jurisdiction) => {
  expect(jurisdictionOf(written)).toBe(jurisdiction);
});
