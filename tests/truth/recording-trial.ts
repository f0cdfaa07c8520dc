import { checks } from '../../src/checks/checks.ts';
import type { Outcome } from '../../src/checks/check.ts';
import { jobFacts } from '../../src/facts/job-facts.ts';
import type { MeasuredMaterial } from '../../src/facts/job-material.ts';
import { measuredFacts } from '../../src/facts/measured-facts.ts';
import type { Facts } from '../../src/records/tables/facts.ts';
import type { Gauge } from '../../src/records/tables/gauges.ts';
import { simulateFleet } from '../../src/simulate/fleet.ts';
import type { SimulatedJob } from '../../src/simulate/job.ts';
import type { JobReadings } from '../../src/simulate/job-log.ts';
import { lineTemperature } from '../../src/store/line-temperature.ts';
import { pressureSeries } from '../../src/store/pressure-series.ts';
import { runSeries } from '../../src/store/run-series.ts';
import { scaleSeries } from '../../src/store/scale-series.ts';
import { runModes } from '../../src/traces/run-series.ts';
import { limitsOf } from '../checks/limits-of.ts';
import type { TrialName } from './claim.ts';
import type { Fault } from '../../src/simulate/mishaps/recording-faults.ts';

/** What the checks of the recording say of a job whose log was tampered with, or of the same job as it was. */
export interface RecordingTrial {
  readonly plan: TrialName;
  /** Absent where the log is as it was recorded. */
  readonly fault?: Fault | undefined;
  readonly truth: SimulatedJob['truth'];
  readonly facts: Partial<Facts>;
  readonly outcomes: Readonly<Record<string, { readonly outcome: Outcome; readonly message: string }>>;
}

const own = checks.filter(({ group }) => group === 'recording');

/** Every job of a fleet as it was recorded. */
export function cleanTrials(jobs: number, seed: number): RecordingTrial[] {
  const fleet = simulateFleet({ jobs, seed });
  return Array.from(fleet.jobs()).flatMap((job, index) => {
    const trial = trialOf(job, fleet.gauges, { seed, number: index + 1, kind: 'as recorded' });
    return trial === undefined ? [] : [trial];
  });
}

/** The jobs of a fleet to which a fault can happen, each with it. */
export function faultyTrials(jobs: number, seed: number, faults: readonly Fault[]): RecordingTrial[] {
  const fleet = simulateFleet({ jobs, seed });
  return Array.from(fleet.jobs()).flatMap((job, index) =>
    faults.flatMap((fault) => {
      const { readings } = job;
      const changed = readings && fault.happens(readings, job);
      if (changed === undefined) return [];
      const plan = { seed, number: index + 1, kind: fault.name };
      const trial = trialOf({ ...job, readings: changed }, fault.isWithoutGauge ? [] : fleet.gauges, plan);
      return trial === undefined ? [] : [{ ...trial, fault }];
    }),
  );
}

function trialOf(job: SimulatedJob, gauges: readonly Gauge[], plan: TrialName): RecordingTrial | undefined {
  if (job.readings === undefined) return undefined;
  const measured = measuredFacts(materialOf(job, job.readings, gauges));
  const { job: record, lineSets, weighings, truth } = job;
  const facts = jobFacts({ jobId: record.job_id, job: record, lineSets, weighings }, measured);
  const outcomes = Object.fromEntries(
    own.map((check) => {
      const { outcome, message } = check.judge(facts, limitsOf(check));
      return [check.id, { outcome, message }];
    }),
  );
  return { plan, truth, facts, outcomes };
}

/** The readings as the store would hand them out. */
function materialOf(
  { job, runModes: spans, marks }: SimulatedJob,
  readings: JobReadings,
  gauges: readonly Gauge[],
): MeasuredMaterial {
  const { elapsedS, vacuumPa, testPa, lineC, scaleKg } = readings;
  const mode = Float64Array.from(elapsedS, (atS) => {
    const word = spans.findLast(({ fromS }) => fromS <= atS)?.mode;
    return word === undefined ? 0 : runModes.indexOf(word) + 1;
  });
  const begin = Math.max(
    0,
    testPa.findLastIndex((pa) => pa >= 0),
  );
  const parts = {
    line: lineTemperature(elapsedS.subarray(begin), vacuumPa.subarray(begin), lineC.subarray(begin)),
    pressure: pressureSeries(elapsedS, testPa, lineC),
    scale: scaleSeries(elapsedS, scaleKg),
    run: runSeries(elapsedS, {
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
      vacuum_pa: vacuumPa,
    }),
  };
  const known = Object.entries(parts).filter(([, part]) => part !== undefined);
  return {
    job,
    gauge: gauges.find(({ gauge_id }) => gauge_id === job.gauge_id),
    series: [{ gauge: null, elapsedS, vacuumPa }],
    marks: marks.map(({ fromS, mark }) => ({ elapsedS: fromS, phase: mark === 'pressure-test' ? null : mark })),
    ...Object.fromEntries(known),
  };
}
