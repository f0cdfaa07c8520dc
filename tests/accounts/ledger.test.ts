import { describe, expect, test } from 'vitest';
import type { Balance } from '../../src/accounts/balance.ts';
import { dayOf } from '../../src/numerics/calendar-day.ts';
import { aCylinder, aLedger, apartOf, aWeighing, type DraftCylinder, ledgerOf } from './cylinder-drafts.ts';

/** A balance in whole grams, without what is 0. */
function grams(balance: Balance | undefined): Record<string, number> {
  return Object.fromEntries(
    Object.entries(balance ?? {})
      .filter(([name]) => name.endsWith('Kg'))
      .map(([name, kg]) => [name, Math.round(1000 * (kg as number))])
      .filter(([, whole]) => whole !== 0),
  );
}

/**
 * Bought with 10 kg, 5 kg empty: 3.00 and 1.50 kg charged in January by A; 0.80 kg missing when B weighs it next; 1.70 kg charged, 1.25 kg
 * recovered in February; 10 − 4.5 − 0.8 − 1.7 + 1.25 = 4.25 kg should be left, and 3.25 kg are when it is closed: 1.00 kg more is missing.
 */
const worked = [
  [
    aCylinder({ cost: 200, closedDay: dayOf('2026-03-31'), closingKg: 3.25 }),
    [
      aWeighing('2026-01-10', 15, 12, { technicianId: 'A' }),
      aWeighing('2026-01-20', 12, 10.5, { technicianId: 'A', siteId: 'other' }),
      aWeighing('2026-02-05', 9.7, 8, { technicianId: 'B' }),
      aWeighing('2026-02-20', 8, 9.25, { technicianId: 'B' }),
    ],
  ],
] as const;

describe('a ledger worked by hand', () => {
  const { total, byRefrigerant, byMonth, byCrew, byTechnician, bySite, cylinders, apart, weighings } = ledgerOf(worked);

  test('adds up over the year', () => {
    const year = { boughtKg: 10_000, chargedKg: 6200, recoveredKg: 1250, returnedKg: 3250, unexplainedKg: 1800 };
    expect(grams(total)).toEqual({ ...year, costedKg: 10_000 });
    // 10 + 1.25 = 6.2 + 3.25 + 1.8.
    expect(year.boughtKg + year.recoveredKg).toBe(year.chargedKg + year.returnedKg + year.unexplainedKg);
    expect(total.cost).toBe(200);
    expect([apart, weighings]).toEqual([[], 4]);
    expect(grams(byRefrigerant.get('R-410A'))).toEqual(grams(total));
    expect(grams(byCrew.get('crew'))).toEqual(grams(total));
  });

  test('month by month, each opens with what the one before had on hand', () => {
    expect(byMonth.map(({ month, balance }) => [month, grams(balance)])).toEqual([
      ['2026-01', { boughtKg: 10_000, costedKg: 10_000, chargedKg: 4500, onHandKg: 5500 }],
      // 5.5 − 0.8 − 1.7 + 1.25 = 4.25.
      ['2026-02', { openingKg: 5500, chargedKg: 1700, recoveredKg: 1250, unexplainedKg: 800, onHandKg: 4250 }],
      ['2026-03', { openingKg: 4250, returnedKg: 3250, unexplainedKg: 1000 }],
    ]);
  });

  test('lays what is missing to a person only where both weighings are theirs', () => {
    expect(grams(byTechnician.get('A'))).toMatchObject({ chargedKg: 4500 });
    expect(grams(byTechnician.get('B'))).toMatchObject({ chargedKg: 1700, recoveredKg: 1250 });
    // Between A's last and B's first, and between B's last and the closing, which nobody is named for.
    expect(grams(byTechnician.get(''))).toMatchObject({ unexplainedKg: 1800 });
    expect(grams(byTechnician.get('B')).unexplainedKg).toBeUndefined();
    expect(grams(byTechnician.get('A')).unexplainedKg).toBeUndefined();
    expect(grams(bySite.get('other'))).toMatchObject({ chargedKg: 1500 });
    expect(grams(bySite.get('site'))).toMatchObject({ chargedKg: 4700, recoveredKg: 1250 });
  });

  test('names both gaps, with the days between which they came about', () => {
    const [{ remarks, crewId }] = cylinders;
    expect(crewId).toBe('crew');
    expect(
      remarks.map((remark) =>
        remark.id === 'missing' ? [remark.gap.fromDay, remark.gap.day, Math.round(1000 * remark.gap.kg)] : remark.id,
      ),
    ).toEqual([
      [dayOf('2026-01-20'), dayOf('2026-02-05'), 800],
      [dayOf('2026-02-20'), dayOf('2026-03-31'), 1000],
    ]);
  });

  test.each([
    // What came before is the opening, what comes after is not looked at.
    [
      '2026-02-01',
      '2026-02-28',
      { openingKg: 5500, chargedKg: 1700, recoveredKg: 1250, unexplainedKg: 800, onHandKg: 4250 },
    ],
    ['2026-02-05', '2026-02-19', { openingKg: 5500, chargedKg: 1700, unexplainedKg: 800, onHandKg: 3000 }],
    ['2026-02-06', '2026-02-20', { openingKg: 3000, recoveredKg: 1250, onHandKg: 4250 }],
    ['2025-01-01', '2026-01-04', {}],
    ['2025-01-01', '2026-01-05', { boughtKg: 10_000, costedKg: 10_000, onHandKg: 10_000 }],
    ['2026-04-01', '2026-04-30', {}],
  ])('from %s to %s', (from, to, expected) => {
    expect(grams(ledgerOf(worked, { from, to }).total)).toEqual(expected);
  });
});

test('a cylinder that several crews share is of none', () => {
  const shared = ledgerOf([
    [aCylinder(), [aWeighing('2026-01-10', 15, 12), aWeighing('2026-01-20', 12, 10, { crewId: 'x' })]],
  ]);
  expect(shared.cylinders[0].crewId).toBeNull();
  expect([...shared.byCrew.keys()]).toEqual(['']);
});

test('one closed without being weighed takes what was left with it, and is named', () => {
  const booked = ledgerOf([[aCylinder({ closedDay: dayOf('2026-02-01') }), [aWeighing('2026-01-10', 15, 12)]]]);
  expect(grams(booked.total)).toEqual({ boughtKg: 10_000, chargedKg: 3000, untoldKg: 7000 });
  expect(apartOf(booked)).toEqual(['closing-not-weighed: cylinder c1, 7.00 kg']);
});

describe('what is kept apart', () => {
  const taken = aWeighing('2026-01-10', 15, 12);
  const apart = (changed: Parameters<typeof aCylinder>[0], weighings = [taken]) => {
    const booked = ledgerOf([[aCylinder(changed), weighings]]);
    return [apartOf(booked), grams(booked.total)];
  };
  const full = { boughtKg: 10_000, onHandKg: 10_000 };

  test.each([
    ['no-weights', aWeighing('2026-01-10', null, 12), '–'],
    ['no-weights', aWeighing('2026-01-10', 15, null), '–'],
    ['no-direction', aWeighing('2026-01-10', 15, 12, { direction: null }), '3.00'],
    ['no-day', aWeighing('2026-01-10', 15, 12, { day: null, atMs: null }), '3.00'],
    ['wrong-way', aWeighing('2026-01-10', 15, 12, { direction: 'out' }), '3.00'],
    ['wrong-way', aWeighing('2026-01-10', 12, 15, { direction: 'in' }), '-3.00'],
    ['before-bought', aWeighing('2026-01-04', 15, 12), '3.00'],
  ])('a weighing: %s', (reason, weighing, kg) => {
    expect(apart({}, [weighing])).toEqual([[`${reason}: weighing ${weighing.weighingId}, ${kg} kg`], full]);
  });

  test('on the very day it was bought and closed a weighing counts, one day off it does not', () => {
    const closed = { closedDay: dayOf('2026-02-01'), closingKg: 5 };
    const weighed = (first: string, last: string) =>
      apart(closed, [aWeighing(first, 15, 12), aWeighing(last, 12, 10)]).at(0);
    expect(weighed('2026-01-05', '2026-02-01')).toEqual([]);
    expect(weighed('2026-01-04', '2026-02-02')).toEqual([
      'before-bought: weighing w 2026-01-04, 3.00 kg',
      'after-closing: weighing w 2026-02-02, 2.00 kg',
    ]);
  });

  test.each([
    ['no-refrigerant', { refrigerant: null, writtenRefrigerant: null }],
    ['unknown-refrigerant', { refrigerant: null, writtenRefrigerant: 'blue' }],
    ['no-net', { netKg: null }],
    ['no-day-bought', { acquiredDay: null }],
  ])('a cylinder with all of its weighings: %s', (reason, changed) => {
    expect(apart(changed)).toEqual([[`${reason}: cylinder c1, 3.00 kg`], {}]);
  });

  test('a recovery cylinder of which no net is told came empty', () => {
    const recovered = aWeighing('2026-01-10', 5, 8);
    expect(apart({ netKg: null, kind: 'recovery' }, [recovered])).toEqual([[], { recoveredKg: 3000, onHandKg: 3000 }]);
  });

  test('weighings of no cylinder, and of one that is not on record', () => {
    const ledger = aLedger();
    ledger.add({ cylinderId: 'c9', cylinder: null, weighings: [taken] });
    ledger.add({ cylinderId: null, cylinder: null, weighings: [aWeighing('2026-01-11', 15, 14)] });
    const booked = ledger.close();
    expect(apartOf(booked)).toEqual([
      'unknown-cylinder: weighing w 2026-01-10, 3.00 kg',
      'no-cylinder: weighing w 2026-01-11, 1.00 kg',
    ]);
    expect([booked.weighings, grams(booked.total)]).toEqual([2, {}]);
  });

  test('is named where as much is missing in the same days', () => {
    // 3 kg are gone between the 10th and the 20th, and a weighing without a cylinder took 3 kg on the 15th.
    const ledger = aLedger();
    const cylinder = aCylinder();
    const gone = [aWeighing('2026-01-10', 15, 13), aWeighing('2026-01-20', 10, 9)];
    ledger.add({ cylinderId: 'c1', cylinder, weighings: gone });
    const lost = [
      aWeighing('2026-01-15', 13, 10),
      aWeighing('2026-01-16', 13, 10.2),
      aWeighing('2026-01-22', 13, 10),
      aWeighing('2026-01-14', 13, 10, { writtenRefrigerant: 'R-32' }),
      aWeighing('2026-01-12', 13, 10, { writtenRefrigerant: 'r410a' }),
    ];
    ledger.add({ cylinderId: null, cylinder: null, weighings: lost });
    const [{ remarks }] = ledger.close().cylinders;
    expect(remarks).toMatchObject([{ id: 'missing', fits: ['w 2026-01-15', 'w 2026-01-12'] }]);
  });
});

test('another cylinder in which as much is too much is named on both', () => {
  const one = aCylinder({ cylinderId: 'one' });
  const other = aCylinder({ cylinderId: 'other' });
  // 2 kg went out of the one between the 10th and the 20th, and 2 kg came into the other between the 12th and the 18th.
  const booked = ledgerOf([
    [one, [aWeighing('2026-01-10', 15, 14), aWeighing('2026-01-20', 12, 11.5)]],
    [other, [aWeighing('2026-01-12', 15, 11), aWeighing('2026-01-18', 13, 12.3)]],
  ]);
  expect(booked.cylinders.map(({ remarks }) => remarks)).toMatchObject([
    [{ id: 'missing', counterpart: 'other' }],
    [{ id: 'too-much', counterpart: 'one' }],
  ]);
  expect(grams(booked.total).unexplainedKg).toBeUndefined();
});

test('one cylinder with too much explains one in which as much is missing, not two', () => {
  const missing = (cylinderId: string): DraftCylinder => [
    aCylinder({ cylinderId }),
    [aWeighing('2026-01-10', 15, 14), aWeighing('2026-01-20', 12, 11.5)],
  ];
  const tooMuch: DraftCylinder = [
    aCylinder({ cylinderId: 'z' }),
    [aWeighing('2026-01-12', 15, 11), aWeighing('2026-01-18', 13, 12.3)],
  ];
  const remarks = ledgerOf([missing('a'), missing('b'), tooMuch]).cylinders.flatMap((line) => line.remarks);
  expect(remarks.map((remark) => ('counterpart' in remark ? remark.counterpart : remark.id))).toEqual(['z', null, 'a']);
});
