import { expect, test } from 'vitest';
import { balanceCells } from '../../src/steps/balance-cells.ts';
import { aCylinder, aWeighing, ledgerOf } from '../accounts/cylinder-drafts.ts';

const worths = {
  of: (refrigerant: string | null, kg: number) =>
    refrigerant === 'R-32' ? { cost: null, co2eT: 0.675 * kg } : { cost: 12 * kg, co2eT: null },
};
const options = { worths, crewLabel: (id: string) => `crew ${id}`, technicianLabel: (id: string) => `tech ${id}` };

test('cells become rows: labels, the worth of what was charged, and sums that are the ledger’s', () => {
  const by = (who: string) => ({ crewId: who, technicianId: who });
  const { cells, total } = ledgerOf([
    [
      aCylinder({ refrigerant: 'R-32', writtenRefrigerant: 'R-32' }),
      [aWeighing('2026-01-10', 15, 13, by('A')), aWeighing('2026-02-10', 12.5, 11, by('B'))],
    ],
    [aCylinder({ cylinderId: 'c2' }), [aWeighing('2026-01-20', 15, 12, by('A'))]],
  ]);
  const rows = balanceCells(cells, options);
  expect(rows).toContainEqual({
    month: '2026-01',
    refrigerant: 'R-410A',
    crew: 'crew A',
    technician: 'tech A',
    boughtKg: 0,
    chargedKg: 3,
    recoveredKg: 0,
    unexplainedKg: 0,
    unexplainedVarianceKg2: 0,
    cost: 36,
    co2eT: null,
  });
  expect(rows).toContainEqual(
    expect.objectContaining({ month: '2026-02', refrigerant: 'R-32', crew: 'crew B', cost: null, co2eT: 1.0125 }),
  );
  expect(rows).toContainEqual(
    expect.objectContaining({ month: '2026-01', refrigerant: 'R-410A', crew: 'crew A', technician: '', boughtKg: 10 }),
  );
  for (const [field, whole] of [
    ['boughtKg', total.boughtKg],
    ['chargedKg', total.chargedKg],
    ['unexplainedKg', total.unexplainedKg],
    ['unexplainedVarianceKg2', total.variance],
  ] as const)
    expect(rows.reduce((sum, row) => sum + row[field], 0)).toBeCloseTo(whole, 5);
});

test('a cell in which nothing moved that is shown has no row', () => {
  const { cells } = ledgerOf([[aCylinder({ acquiredDay: null, closedDay: null }), []]]);
  expect(balanceCells(cells, options)).toEqual([]);
});
