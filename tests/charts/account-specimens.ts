import type { TopLevelSpec } from 'vega-lite';
import { leakRates } from '../../src/charts/leak-rates.ts';
import { unexplainedByMonth } from '../../src/charts/unexplained-by-month.ts';

/** Charts of the accounts, each with what it shows. */
export const accountSpecimens: readonly [string, TopLevelSpec][] = [
  [
    'unexplained by month',
    unexplainedByMonth(
      [
        { month: '2026-01', value: 12.5, halfWidth: 4 },
        { month: '2026-02', value: -1, halfWidth: 3 },
      ],
      { unit: 'lb' },
    ),
  ],
  ['unexplained by month: no month', unexplainedByMonth([], { unit: 'kg' })],
  [
    'leak rates',
    leakRates([
      { systemId: 'rack', rate: 1.51, trigger: 0.2, isOver: true },
      { systemId: 'chiller', rate: 0.0002, trigger: 0.1, isOver: false },
    ]),
  ],
  ['leak rates: none', leakRates([])],
];
