import type { TopLevelSpec } from 'vega-lite';
import { co2eByMonth } from '../../src/charts/co2e-by-month.ts';
import { carriedJudgement } from '../../src/charts/carried-judgement.ts';
import { calledBackByAge, lifeTableName } from '../../src/charts/called-back-by-age.ts';
import { flaggedByMonth } from '../../src/charts/flagged-by-month.ts';
import { limitMargins } from '../../src/charts/limit-margins.ts';
import { foundOverExpected } from '../../src/charts/found-over-expected.ts';
import { funnelLimitRows, skillFunnel } from '../../src/charts/skill-funnel.ts';
import { refrigerantCostByMonth } from '../../src/charts/refrigerant-cost-by-month.ts';
import { technicianRates } from '../../src/charts/technician-rates.ts';
import { balanceCells, crews, jobCells, limitPoints, months, skillCells, technicians } from './drawn-cells.ts';
import { unexplainedByMonth } from '../../src/charts/unexplained-by-month.ts';
import { funnelCurve } from '../../src/fleet/statistics/funnel-curve.ts';
import type { Datasets } from './filtered-view.ts';
import { lifeTableGroups, lifeTableRows } from './life-table-rows.ts';

/** The rows that a page ships. */
export const datasets: Datasets = {
  'job-cells': jobCells,
  'balance-cells': balanceCells,
  'limit-points': limitPoints,
  [lifeTableName]: lifeTableRows,
  'skill-cells': skillCells,
  'funnel-limits': [...new Set(skillCells.map(({ skill }) => skill))].flatMap((skill) =>
    funnelLimitRows(skill, funnelCurve(0.2, 40)),
  ),
};

/** As a chart shows masses in pounds. */
export const pounds = { unit: 'lb', kgPerShown: 0.45359237 } as const;

/** Every chart that can be filtered, on usual and on awkward options. */
export const filterableSpecimens: readonly [string, TopLevelSpec][] = [
  ['flagged by month', flaggedByMonth({ months, crew: crews[1] })],
  ['flagged by month: all crews', flaggedByMonth({ months })],
  ['flagged by month: no months', flaggedByMonth({ months: [] })],
  ['technicians', technicianRates({ technicians })],
  ['limit margins', limitMargins()],
  ['called back by age', calledBackByAge({ groups: lifeTableGroups, stepDays: 30, horizonDays: 365 })],
  ['found over expected', foundOverExpected({ technicians, skill: 'evacuation' })],
  ['found over expected: nobody, of no skill', foundOverExpected({ technicians: [], skill: '' })],
  ['carried judgement', carriedJudgement({ technicians, skill: 'evacuation' })],
  ['carried judgement: nobody, of no skill', carriedJudgement({ technicians: [], skill: '' })],
  ['skill funnel', skillFunnel({ skill: 'charge "\u2028' })],
  ['skill funnel: of no skill', skillFunnel({ skill: '' })],
  ['unexplained by month', unexplainedByMonth({ months, ...pounds })],
  ['unexplained by month: no month', unexplainedByMonth({ months: [], unit: 'kg', kgPerShown: 1 })],
  ['refrigerant cost by month', refrigerantCostByMonth({ months, ...pounds })],
  ['refrigerant cost by month: no month', refrigerantCostByMonth({ months: [], ...pounds })],
  ['CO₂e by month', co2eByMonth({ months, vintageText: 'IPCC AR4', ...pounds })],
  ['technicians: none', technicianRates({ technicians: [] })],
];
