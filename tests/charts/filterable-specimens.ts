import type { TopLevelSpec } from 'vega-lite';
import { flaggedByMonth } from '../../src/charts/flagged-by-month.ts';
import { limitMargins } from '../../src/charts/limit-margins.ts';
import { foundOverExpected } from '../../src/charts/found-over-expected.ts';
import { funnelLimitRows, skillFunnel } from '../../src/charts/skill-funnel.ts';
import { technicianRates } from '../../src/charts/technician-rates.ts';
import { crews, jobCells, limitPoints, months, skillCells, technicians } from './drawn-cells.ts';
import { funnelCurve } from '../../src/fleet/statistics/funnel-curve.ts';
import type { Datasets } from './filtered-view.ts';

/** The rows that a page ships. */
export const datasets: Datasets = {
  'job-cells': jobCells,
  'limit-points': limitPoints,
  'skill-cells': skillCells,
  'funnel-limits': [...new Set(skillCells.map(({ skill }) => skill))].flatMap((skill) =>
    funnelLimitRows(skill, funnelCurve(0.2, 40)),
  ),
};

/** Every chart that can be filtered, on usual and on awkward options. */
export const filterableSpecimens: readonly [string, TopLevelSpec][] = [
  ['flagged by month', flaggedByMonth({ months, crew: crews[1] })],
  ['flagged by month: all crews', flaggedByMonth({ months })],
  ['flagged by month: no months', flaggedByMonth({ months: [] })],
  ['technicians', technicianRates({ technicians })],
  ['limit margins', limitMargins()],
  ['found over expected', foundOverExpected({ technicians, skill: 'evacuation' })],
  ['found over expected: nobody, of no skill', foundOverExpected({ technicians: [], skill: '' })],
  ['skill funnel', skillFunnel({ skill: 'charge "\u2028' })],
  ['skill funnel: of no skill', skillFunnel({ skill: '' })],
  ['technicians: none', technicianRates({ technicians: [] })],
];
