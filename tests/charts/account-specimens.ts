import type { TopLevelSpec } from 'vega-lite';
import { leakRates } from '../../src/charts/leak-rates.ts';

/** Charts of the accounts, each with what it shows. */
export const accountSpecimens: readonly [string, TopLevelSpec][] = [
  [
    'leak rates',
    leakRates([
      { systemId: 'rack', month: '2026-03', refrigerant: 'R-404A', rate: 1.51, trigger: 0.2, isOver: true },
      { systemId: 'chiller', month: '2026-04', refrigerant: '', rate: 0.0002, trigger: 0.1, isOver: false },
    ]),
  ],
  ['leak rates: none', leakRates([])],
];
