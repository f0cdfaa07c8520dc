import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Balance } from '../../src/accounts/balance.ts';
import type { BalanceCell, BookedLedger } from '../../src/accounts/booked-ledger.ts';
import { Ledger } from '../../src/accounts/ledger.ts';
import { dayOf } from '../../src/numerics/calendar-day.ts';
import { aCylinder, aWeighing, ledgerOf } from './cylinder-drafts.ts';
import { shop } from './drawn-shop.ts';

const figures = [
  'boughtKg',
  'chargedKg',
  'recoveredKg',
  'returnedKg',
  'unexplainedKg',
  'untoldKg',
  'variance',
  'cost',
  'costedKg',
] as const;

/** Sums of all figures, by a key. */
function sums<One>(all: readonly One[], keyOf: (one: One) => string, balanceOf: (one: One) => BalanceCell['balance']) {
  const found = new Map<string, number[]>();
  for (const one of all) {
    const before = found.get(keyOf(one)) ?? figures.map(() => 0);
    found.set(
      keyOf(one),
      before.map((sum, at) => sum + balanceOf(one)[figures[at]]),
    );
  }
  return found;
}

function expectNear(found: ReadonlyMap<string, number[]>, wanted: ReadonlyMap<string, number[]>) {
  const nothing = figures.map(() => 0);
  for (const key of new Set([...found.keys(), ...wanted.keys()])) {
    const [one, other] = [found.get(key) ?? nothing, wanted.get(key) ?? nothing];
    for (const [at, figure] of figures.entries())
      expect(Math.abs(one[at] - other[at]), `${figure} of ${key}`).toBeLessThanOrEqual(1e-9);
  }
}

const balances = (all: ReadonlyMap<string, Balance>) => [...all].map(([id, balance]) => ({ id, balance }));

test('cells add up to the months, to the refrigerants and to the technicians, whatever is written', () => {
  let cells = 0;
  fc.assert(
    fc.property(shop, (cylinders) => {
      const booked = ledgerOf(cylinders, { from: '2026-01-20', to: '2026-02-20' });
      cells += booked.cells.length;
      const ofMonth = ({ month, refrigerant }: { month: string; refrigerant: string }) => `${month} ${refrigerant}`;
      const balanceOf = ({ balance }: { balance: BalanceCell['balance'] }) => balance;
      expectNear(sums(booked.cells, ofMonth, balanceOf), sums(booked.byMonth, ofMonth, balanceOf));
      expectNear(
        sums(booked.cells, ({ refrigerant }) => refrigerant, balanceOf),
        sums(balances(booked.byRefrigerant), ({ id }) => id, balanceOf),
      );
      const held = figures.filter((figure) =>
        ['chargedKg', 'recoveredKg', 'unexplainedKg', 'variance'].includes(figure),
      );
      const ofTechnician = (all: ReturnType<typeof sums>) =>
        new Map([...all].map(([id, own]) => [id, own.map((sum, at) => (held.includes(figures[at]) ? sum : 0))]));
      expectNear(
        ofTechnician(sums(booked.cells, ({ technicianId }) => technicianId, balanceOf)),
        ofTechnician(sums(balances(booked.byTechnician), ({ id }) => id, balanceOf)),
      );
    }),
    { seed: 18, numRuns: 300 },
  );
  expect(cells).toBeGreaterThan(600);
});

test('where each cylinder is one crew’s, cells add up to the crews', () => {
  fc.assert(
    fc.property(shop, fc.array(fc.constantFrom('A', 'B'), { minLength: 4, maxLength: 4 }), (cylinders, crews) => {
      const owned = cylinders.map(
        ([cylinder, own], at) => [cylinder, own.map((weighing) => ({ ...weighing, crewId: crews[at] }))] as const,
      );
      const booked = ledgerOf(owned);
      const balanceOf = ({ balance }: { balance: BalanceCell['balance'] }) => balance;
      // A weighing may turn out to be another cylinder's: then several crews share that.
      fc.pre(booked.cylinders.every(({ remarks }) => remarks.every(({ id }) => id !== 'misplaced')));
      expectNear(
        sums(booked.cells, ({ crewId }) => crewId, balanceOf),
        sums(balances(booked.byCrew), ({ id }) => id, balanceOf),
      );
    }),
    { seed: 19, numRuns: 300 },
  );
});

test('of a cylinder that two crews share, each has what it charged, and nobody what went missing between them', () => {
  const by = (who: string) => ({ crewId: who, technicianId: `${who} tech` });
  const { cells } = ledgerOf([
    [
      aCylinder(),
      [
        aWeighing('2026-01-10', 15, 13, by('A')),
        aWeighing('2026-01-20', 12, 11, by('A')),
        aWeighing('2026-02-10', 9, 8, by('B')),
      ],
    ],
  ]);
  const shown = ({ cells: all }: Pick<BookedLedger, 'cells'>) =>
    all.map(({ month, crewId, technicianId, balance }) => [
      month,
      crewId,
      technicianId,
      ...(['boughtKg', 'chargedKg', 'unexplainedKg'] as const).map((figure) => Number(balance[figure].toFixed(6))),
    ]);
  const rows = shown({ cells });
  expect(rows).toContainEqual(['2026-01', '', '', 10, 0, 0]);
  expect(rows.filter(([, crew]) => crew !== '').map((row) => row.slice(0, 5))).toEqual([
    ['2026-01', 'A', 'A tech', 0, 3],
    ['2026-02', 'B', 'B tech', 0, 1],
  ]);
  const total = (at: number) => rows.reduce((sum, row) => sum + Number(row[at]), 0);
  expect([total(3), total(4), total(5)].map((kg) => Number(kg.toFixed(6)))).toEqual([10, 4, 3]);
  // 1 kg between two weighings of A's, 2 kg between A's and B's.
  expect(rows.find(([, crew]) => crew === 'A')?.[5]).toBe(1);
});

test('a ledger that is not asked for cells keeps none', () => {
  const ledger = new Ledger({ fromDay: dayOf('2026-01-01'), toDay: dayOf('2026-12-31') });
  ledger.add({ cylinderId: 'c1', cylinder: aCylinder(), weighings: [aWeighing('2026-01-10', 15, 13)] });
  const { cells, byMonth } = ledger.close();
  expect([cells.length, byMonth.length]).toEqual([0, 1]);
});
