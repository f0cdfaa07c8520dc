import type { TopLevelSpec } from 'vega-lite';
import { flaggedByMonth } from '../../src/charts/flagged-by-month.ts';
import { limitMargins } from '../../src/charts/limit-margins.ts';
import { technicianRates } from '../../src/charts/technician-rates.ts';
import { crews, jobCells, limitPoints, months, technicians } from './drawn-cells.ts';
import type { Datasets } from './filtered-view.ts';

/** The rows that a page ships. */
export const datasets: Datasets = { 'job-cells': jobCells, 'limit-points': limitPoints };

/** Every chart that can be filtered, on usual and on awkward options. */
export const filterableSpecimens: readonly [string, TopLevelSpec][] = [
  ['flagged by month', flaggedByMonth({ months, crew: crews[1] })],
  ['flagged by month: all crews', flaggedByMonth({ months })],
  ['flagged by month: no months', flaggedByMonth({ months: [] })],
  ['technicians', technicianRates({ technicians })],
  ['limit margins', limitMargins()],
  ['technicians: none', technicianRates({ technicians: [] })],
];
