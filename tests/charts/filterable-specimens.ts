import type { TopLevelSpec } from 'vega-lite';
import { flaggedByMonth } from '../../src/charts/flagged-by-month.ts';
import { technicianRates } from '../../src/charts/technician-rates.ts';
import { crews, jobCells, months, technicians } from './drawn-cells.ts';
import type { Datasets } from './filtered-view.ts';

/** The rows that a page ships. */
export const datasets: Datasets = { 'job-cells': jobCells };

/** Every chart that can be filtered, on usual and on awkward options. */
export const filterableSpecimens: readonly [string, TopLevelSpec][] = [
  ['flagged by month', flaggedByMonth({ months, crew: crews[1] })],
  ['flagged by month: all crews', flaggedByMonth({ months })],
  ['flagged by month: no months', flaggedByMonth({ months: [] })],
  ['technicians', technicianRates({ technicians })],
  ['technicians: none', technicianRates({ technicians: [] })],
];
