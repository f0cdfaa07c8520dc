import { describe, expect, test } from 'vitest';
import { emptyBalance, unexplainedHalfWidthKg } from '../../src/accounts/balance.ts';
import type { BalanceCellRow } from '../../src/charts/balance-cell-row.ts';
import { co2eByMonth } from '../../src/charts/co2e-by-month.ts';
import { refrigerantCostByMonth } from '../../src/charts/refrigerant-cost-by-month.ts';
import { unexplainedByMonth } from '../../src/charts/unexplained-by-month.ts';
import { type Asked, asks, balanceCells, isAsked, months, signalsOf, sumOf } from './drawn-cells.ts';
import { pounds } from './filterable-specimens.ts';
import { type DrawnItem, FilteredView } from './filtered-view.ts';

const data = { 'balance-cells': balanceCells };
const named: [string, Asked][] = asks.map((asked) => [JSON.stringify(asked), asked]);
const passing = (asked: Asked) => balanceCells.filter((row) => months.includes(row.month) && isAsked(row, asked));
const byMonth = (rows: readonly BalanceCellRow[]) => Map.groupBy(rows, ({ month }) => month);
const monthOf = ({ datum }: DrawnItem) => String(datum['month']);

describe.each(named)('asked for %s', (_, asked) => {
  test('each month has what is missing of what passes, with the interval that the ledger has', async () => {
    const view = await FilteredView.of(unexplainedByMonth({ months, ...pounds }), data, signalsOf(asked));
    const points = view.items('symbol')[0] ?? [];
    const wanted = byMonth(passing(asked));
    expect(points.map(monthOf).sort()).toEqual([...wanted.keys()].sort());
    for (const point of points) {
      const rows = wanted.get(monthOf(point)) ?? [];
      const missingKg = sumOf(rows, 'unexplainedKg');
      const halfWidthKg = unexplainedHalfWidthKg({
        ...emptyBalance(),
        variance: sumOf(rows, 'unexplainedVarianceKg2'),
        chargedKg: sumOf(rows, 'chargedKg'),
        recoveredKg: sumOf(rows, 'recoveredKg'),
        boughtKg: sumOf(rows, 'boughtKg'),
      });
      expect(point.datum['value']).toBeCloseTo(missingKg / 0.45359237, 10);
      expect(point.datum['halfWidth']).toBeCloseTo(halfWidthKg / 0.45359237, 10);
      expect(point.shape).toBe(Math.abs(missingKg) > halfWidthKg ? 'diamond' : 'circle');
    }
  });

  test.each([
    ['cost', refrigerantCostByMonth({ months, ...pounds }), 'a price'],
    ['co2eT', co2eByMonth({ months, vintageText: 'IPCC AR4', ...pounds }), 'a value'],
  ] as const)('each month has the %s of what passes, and what has none is told', async (field, chart, without) => {
    const view = await FilteredView.of(chart, data, signalsOf(asked));
    const bars = view.items('rect')[0] ?? [];
    const known = passing(asked).flatMap((row) => {
      const worth = row[field];
      return worth === null ? [] : [{ month: row.month, worth }];
    });
    const wanted = Map.groupBy(known, ({ month }) => month);
    expect(bars.map(monthOf).sort()).toEqual([...wanted.keys()].sort());
    for (const bar of bars) expect(bar.datum['worth']).toBeCloseTo(sumOf(wanted.get(monthOf(bar)) ?? [], 'worth'), 9);
    const unknown = passing(asked).filter((row) => row[field] === null);
    const leftOut = sumOf(unknown, 'chargedKg') / 0.45359237;
    const note = unknown.length === 0 ? [] : [`${leftOut.toFixed(1)} lb without ${without}`];
    expect(
      view
        .items('text')
        .at(-1)
        ?.map(({ text }) => text),
    ).toEqual(note);
  });
});

test('both shapes of a month are drawn, and a month in which nothing moved is empty', async () => {
  const row = { ...balanceCells[0], chargedKg: 0, recoveredKg: 0, boughtKg: 0 } as BalanceCellRow;
  const rows = [
    { ...row, month: '2026-01', unexplainedKg: 1, unexplainedVarianceKg2: 0.25 },
    { ...row, month: '2026-03', unexplainedKg: 1, unexplainedVarianceKg2: 0.27 },
  ];
  const chart = unexplainedByMonth({ months, unit: 'kg', kgPerShown: 1 });
  const points = (await FilteredView.of(chart, { 'balance-cells': rows })).items('symbol')[0] ?? [];
  // 1.96 times 0.5 is 0.98; 1.96 times 0.52 is 1.02.
  expect(points.map((point) => [monthOf(point), point.shape])).toEqual([
    ['2026-01', 'diamond'],
    ['2026-03', 'circle'],
  ]);
});

test('where everything has a price, nothing is said of a price', async () => {
  const rows = balanceCells.map((row) => ({ ...row, cost: 1 }));
  const view = await FilteredView.of(refrigerantCostByMonth({ months, ...pounds }), { 'balance-cells': rows });
  expect(view.items('text')).toEqual([[]]);
});
