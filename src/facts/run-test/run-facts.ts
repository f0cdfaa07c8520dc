import type { Facts } from '../../records/tables/facts.ts';
import type { RunSeries } from '../../traces/run-series.ts';
import type { MeasuredRecords } from '../job-material.ts';
import { siteAtmosphere } from '../site-atmosphere.ts';
import { refrigerantFacts, type RunningState } from './refrigerant-facts.ts';
import { restState } from './rest-state.ts';
import { runPatternFacts } from './run-pattern.ts';
import { runTestFacts } from './run-test-facts.ts';
import { vacuumRunFacts } from './vacuum-run.ts';

/**
 * All that the readings of a running system show: its run test, what is in it, the pattern over all readings, and whether its
 * compressor ever ran in a vacuum.
 *
 * @param changedS when the charge was last changed [s]; undefined where no scale tells
 */
export function runFacts(series: RunSeries | undefined, records: MeasuredRecords, changedS?: number): Partial<Facts> {
  if (series === undefined) return {};
  const { job } = records;
  const run = runTestFacts(series, records, changedS);
  const rest = restState(series, job?.metering_location !== 'outdoor');
  const refrigerant = refrigerantFacts(job, rest, runningState(run));
  const facts = { ...run, ...refrigerant };
  const airPa = siteAtmosphere(job);
  return {
    atmosphere_pa: airPa,
    ...facts,
    ...(facts.run_problem === undefined ? runPatternFacts(facts) : {}),
    ...(facts.run_problem === 'pressure-unit' ? {} : vacuumRunFacts(series, airPa, job)),
  };
}

/** The means of a steady run, where nothing is wrong with gauges and clamps that would mislead. */
function runningState(run: Partial<Facts>): RunningState | undefined {
  if (run.run_suction_pa === undefined && run.run_liquid_pa === undefined) return undefined;
  if (run.run_problem !== undefined && run.run_problem !== 'below-dew') return undefined;
  // Behind a metering device outdoors the liquid line is on the low side.
  const isLow = run.liquid_line_phase === 'two-phase';
  const state = {
    suctionPa: run.run_suction_pa ?? Number.NaN,
    liquidPa: isLow ? Number.NaN : (run.run_liquid_pa ?? Number.NaN),
    suctionLineK: run.run_suction_line_k ?? Number.NaN,
    liquidLineK: isLow ? Number.NaN : (run.run_liquid_line_k ?? Number.NaN),
    outdoorK: run.run_outdoor_k ?? Number.NaN,
    indoorK: run.run_indoor_k ?? Number.NaN,
  };
  const { suctionPa, liquidPa, suctionLineK, liquidLineK, outdoorK, indoorK } = state;
  // A pressure alone, or temperatures alone, tell of no refrigerant.
  const tells = [suctionPa + suctionLineK, suctionPa + indoorK, liquidPa + liquidLineK, liquidPa + outdoorK];
  return tells.every((sum) => Number.isNaN(sum)) ? undefined : state;
}
