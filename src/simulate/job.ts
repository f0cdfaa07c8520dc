import { Random } from '../numerics/random.ts';
import { standardAtmosphere } from '../physics/index.ts';
import type { Appliance } from '../records/tables/appliances.ts';
import type { Callback } from '../records/tables/callbacks.ts';
import type { Job } from '../records/tables/jobs.ts';
import type { LineSet } from '../records/tables/line-sets.ts';
import type { Weighing } from '../records/tables/weighings.ts';
import { seasonC } from './calendar.ts';
import { callbackRisk, drawCallback } from './callback-risk.ts';
import type { CallbackTruth } from './callback-truth.ts';
import { drawChargePlan, drawTopUp } from './charge-plan.ts';
import { crews } from './crews.ts';
import type { CylinderStore } from './cylinder-store.ts';
import type { CylinderTruth } from './cylinder-truth.ts';
import { type JobReadings, simulateJobLog } from './job-log.ts';
import { applianceRow, type JobRecord, jobRow, lineSetRows } from './job-rows.ts';
import { jobWeighings } from './job-weighings.ts';
import type { JobMishaps } from './mishaps/draw-mishaps.ts';
import type { PhaseMark } from './phase-marks.ts';
import type { RecoveryStore } from './recovery-store.ts';
import type { Revisit } from './revisits.ts';
import { simulateJobRunTest } from './run/job-run-test.ts';
import type { RunModeSpan } from './run/run-test.ts';
import { chargeTruth } from './scale/charge-truth.ts';
import { drawHoseContentKg } from './scale/hose-content.ts';
import { drawJobScale } from './scale/job-scale.ts';
import { shop } from './shop.ts';
import { drawSystem, type SystemType } from './system.ts';
import { onDay, type Technician } from './technicians.ts';
import { drawTrueLengths } from './true-lengths.ts';
import type { Truth } from './truth.ts';

/** A job with everything that belongs to it. */
export interface SimulatedJob {
  readonly job: Job;
  readonly lineSets: readonly LineSet[];
  readonly weighings: readonly Weighing[];
  /** Undefined where the job goes back to a system of an earlier one. */
  readonly appliance: Appliance | undefined;
  readonly callback: Callback | undefined;
  /** What it is truly about. */
  readonly callbackTruth: CallbackTruth | undefined;
  /** The repair that the callback asks for. */
  readonly revisit: Revisit | undefined;
  /** End, in days since the first. */
  readonly endDay: number;
  /** Undefined where nothing was logged. */
  readonly readings: JobReadings | undefined;
  /** Empty where the source sets no marks. */
  readonly marks: readonly PhaseMark[];
  /** What the system was doing; empty where the source does not say. */
  readonly runModes: readonly RunModeSpan[];
  readonly truth: Truth;
  /** What is planted in its weighings. */
  readonly cylinderTruth: readonly CylinderTruth[];
}

/** Which job is drawn, when, and from whose cylinders. */
export interface SimulateJobOptions {
  readonly seed: number;
  /** Number of the job, from 1; it seeds the job's own random numbers. */
  readonly number: number;
  /** Start, in days since the first, with its fraction. */
  readonly day: number;
  readonly technician: Technician;
  /** The repair that it is; undefined for a job of its own. */
  readonly revisit: Revisit | undefined;
  readonly cylinders: CylinderStore;
  readonly recoveries: RecoveryStore;
  /** How often every vacuum gauge logs [s]; absent: as often as each does. */
  readonly intervalS?: number | undefined;
  /** What goes wrong with its log; absent: nothing. */
  readonly mishaps?: JobMishaps | undefined;
}

/** Share of jobs that only top a running system up: no evacuation, no vacuum log. */
const TOP_UP_SHARE = 0.03;
/** Share of callbacks of which somebody writes down what was found. */
const CAUSE_WRITTEN_SHARE = 0.85;

/** Simulates one job: draws people, system and conditions, runs the visit, and writes down record, readings and truth. */
export function simulateJob(options: SimulateJobOptions): SimulatedJob {
  const { day, number, cylinders, recoveries, revisit } = options;
  const random = new Random(options.seed, number);
  // Numbers of its own, here and for the pressure test: they leave those of the evacuation as they are.
  const scaleRandom = new Random(options.seed, 2_000_000_000 + number);
  const technician = onDay(options.technician, day);
  const crewId = random.chance(0.06) ? random.choice(crews).crewId : technician.crewId;
  const crew = crews.find((one) => one.crewId === crewId) ?? crews[0];
  const topUp = revisit === undefined && random.chance(TOP_UP_SHARE);
  const used = topUp || revisit !== undefined || random.chance(crew.repairShare);
  const system =
    revisit === undefined
      ? drawTrueLengths(scaleRandom, drawSystem(random, random.weighted<SystemType>(crew.systemTypes), used))
      : { ...revisit.system, testedM3: revisit.system.circuitM3 };
  const district = revisit?.district ?? random.choice(shop.districts);
  const lineC = Math.min(38, Math.max(4, (seasonC(day) + 20) / 2 + random.normal(0, 3)));
  const hoseK = lineC + 273.15 + scaleRandom.normal(0, 2);
  const residualKg = drawHoseContentKg(random, crew.chargingHose, system.refrigerant, hoseK);
  const planned = topUp
    ? drawTopUp(random, system, residualKg)
    : drawChargePlan({ random, slipRandom: scaleRandom, technician, system, preCharged: !used, residualKg });
  const { refrigerant } = system;
  const scale = drawJobScale({
    random: scaleRandom,
    plan: planned,
    technicianId: technician.technicianId,
    crew,
    refrigerant,
    cylinders,
    day,
  });
  const { plan, charge } = scale;
  const adderRecorded = !scaleRandom.chance(0.08);
  const log = topUp
    ? undefined
    : simulateJobLog({
        random,
        testRandom: new Random(options.seed, -number),
        technician,
        crew,
        day,
        system,
        used,
        lineC,
        altitudeM: district.altitudeM,
        charge,
        intervalS: options.intervalS,
        mishaps: options.mishaps,
      });
  const durationS = log?.durationS ?? random.uniform(900, 2400);
  if (scale.weighings.length > 0) cylinders.weighed(technician.technicianId, refrigerant, day + durationS / 86_400);
  const afterS = random.uniform(900, 7200);
  const runTest = simulateJobRunTest({
    seed: options.seed,
    number,
    day,
    system,
    used,
    topUp,
    plan,
    atmospherePa: log?.barometerPa ?? standardAtmosphere(district.altitudeM),
    before: log?.readings,
    marks: log?.marks ?? [],
    roomS: afterS,
    intervalS: options.intervalS,
    mishaps: options.mishaps,
  });
  const record: JobRecord = {
    number,
    day,
    technician,
    crew,
    system,
    used,
    topUp,
    district,
    plan,
    scale,
    adderRecorded,
    log,
    runTest,
    random,
    durationS,
    endDay: day + (durationS + afterS) / 86_400,
    revisit,
  };
  const job = jobRow(record);
  const left = {
    jobId: job.job_id,
    systemId: job.system_id ?? job.job_id,
    // What stands overnight is done the next day.
    day: day + Math.floor(record.endDay) - Math.floor(day),
    // A system that wants topping up leaks: it loses what was added again.
    leakPaPerS: log?.leakPaPerS ?? random.logUniform(0.003, 0.05),
    vapourPa: log?.vapourPa ?? 0,
    deviationRatio: (plan.deviationKg ?? 0) / plan.targetKg,
  };
  // Numbers of its own, which leave all others as they are.
  const isCauseWritten = new Random(options.seed, 1_000_000_000 + number).chance(CAUSE_WRITTEN_SHARE);
  const callback = drawCallback(random, left, plan.targetKg, isCauseWritten);
  return {
    job,
    lineSets: lineSetRows(record, job.job_id),
    ...jobWeighings({ seed: options.seed, record, job, cylinders, recoveries }),
    appliance: revisit === undefined ? applianceRow(record, job) : undefined,
    callback: callback?.row,
    callbackTruth: callback?.truth,
    revisit: callback?.needsRepair
      ? {
          dueDay: callback.day + random.uniform(1, 9),
          jobId: job.job_id,
          systemId: left.systemId,
          siteId: job.site_id ?? job.job_id,
          district,
          system,
        }
      : undefined,
    endDay: record.endDay,
    readings: runTest.readings,
    marks: runTest.marks,
    runModes: runTest.modes,
    truth: {
      job_id: job.job_id,
      ...log?.truth,
      ...chargeTruth(scale, system, log?.readings?.scaleKg),
      callback_risk: callbackRisk(left),
      ...runTest.truth,
    },
  };
}
