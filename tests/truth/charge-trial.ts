import { jobFacts } from '../../src/facts/job-facts.ts';
import { scaleFacts } from '../../src/facts/charge/scale-facts.ts';
import { runFacts } from '../../src/facts/run-test/run-facts.ts';
import type { Facts } from '../../src/records/tables/facts.ts';
import { simulateFleet } from '../../src/simulate/fleet.ts';
import type { SimulatedJob } from '../../src/simulate/job.ts';
import { scaleSeries } from '../../src/store/scale-series.ts';
import { runSeries } from '../../src/store/run-series.ts';
import { runModes } from '../../src/traces/run-series.ts';
import type { TrialName } from './claim.ts';

/** A job of a simulated fleet: its record, its truth, and what was found of its charge and its run. */
export interface ChargeTrial {
  readonly plan: TrialName;
  readonly job: SimulatedJob['job'];
  readonly lineSets: SimulatedJob['lineSets'];
  readonly truth: SimulatedJob['truth'];
  readonly facts: Partial<Facts>;
}

/** Every job of a fleet, with the facts of its charge and its run; its vacuum and its pressure test are left out. */
export function chargeTrials(jobs: number, seed: number): ChargeTrial[] {
  const fleet = simulateFleet({ jobs, seed });
  const all = [...fleet.jobs()];
  const cylinders = fleet.cylinders();
  return all.map((one, index) => {
    const { job, lineSets, weighings, truth } = one;
    const scale = one.readings && scaleSeries(one.readings.elapsedS, one.readings.scaleKg);
    const fromScale = scaleFacts(scale, job.scale_step_kg);
    const measured = { ...fromScale, ...runFacts(runOf(one), { job }, fromScale.scale_flow_end_s) };
    const named = cylinders.filter(({ cylinder_id: id }) => weighings.some(({ cylinder_id }) => cylinder_id === id));
    const facts = jobFacts({ jobId: job.job_id, job, lineSets, weighings, cylinders: named }, measured);
    return { plan: { seed, number: index + 1, kind: truth.scale_upset ?? 'undisturbed' }, job, lineSets, truth, facts };
  });
}

/** The run as the store would hand it out. */
function runOf({ readings, runModes: spans }: SimulatedJob) {
  if (readings === undefined) return undefined;
  const mode = Float64Array.from(readings.elapsedS, (atS) => {
    const word = spans.findLast(({ fromS }) => fromS <= atS)?.mode;
    return word === undefined ? 0 : runModes.indexOf(word) + 1;
  });
  return runSeries(readings.elapsedS, {
    suction_pa: readings.suctionPa,
    liquid_pa: readings.liquidPa,
    suction_line_c: readings.suctionLineC,
    liquid_line_c: readings.liquidLineC,
    outdoor_c: readings.outdoorC,
    indoor_c: readings.indoorC,
    indoor_wet_bulb_c: readings.indoorWetBulbC,
    supply_c: readings.supplyC,
    return_c: readings.returnC,
    compressor_w: readings.compressorW,
    run_mode: mode,
    vacuum_pa: readings.vacuumPa,
  });
}
