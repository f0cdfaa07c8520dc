import { Random } from '../numerics/random.ts';
import type { Job } from '../records/tables/jobs.ts';
import type { Weighing } from '../records/tables/weighings.ts';
import { instantOfDay } from './calendar.ts';
import type { CylinderStore } from './cylinder-store.ts';
import type { CylinderTruth } from './cylinder-truth.ts';
import type { JobRecord } from './job-rows.ts';
import type { RecoveryStore } from './recovery-store.ts';
import { slippedWeighing } from './scale/weighing-slips.ts';
import { weighingRows } from './scale/weighing-rows.ts';

export interface JobWeighingsOptions {
  readonly seed: number;
  readonly record: JobRecord;
  readonly job: Job;
  readonly cylinders: CylinderStore;
  readonly recoveries: RecoveryStore;
}

/** The `weighings` rows of a job as they are written, and what is planted in them. */
export interface JobWeighings {
  readonly weighings: readonly Weighing[];
  readonly cylinderTruth: readonly CylinderTruth[];
}

/** Numbers of its own, which leave all others as they are. */
const STREAM = -1_000_000_000;
const DAY_MIN = 1440;

/** What a job recovered, and then what it charged. */
export function jobWeighings({ seed, record, job, cylinders, recoveries }: JobWeighingsOptions): JobWeighings {
  const random = new Random(seed, STREAM - record.number);
  const { crew, technician, system, runTest } = record;
  const charged = weighingRows(record, job).map((row) => ({
    ...row,
    refrigerant: runTest.weighedRefrigerant ?? row.refrigerant,
  }));
  const recovered = recoveryRow(random, record, job, recoveries);
  const written = [
    ...(recovered === undefined
      ? []
      : [
          {
            weighing: recovered,
            elsewhere: recoveries.elsewhere(technician.technicianId, system.refrigerant),
            mayMistype: false,
          },
        ]),
    ...charged.map((weighing) => ({
      weighing,
      elsewhere: cylinders.elsewhere(technician.technicianId, system.refrigerant),
      mayMistype: true,
    })),
  ].map((one) => slippedWeighing({ random, ...one, scaleStepKg: crew.scaleStepKg }));
  return {
    weighings: written.map(({ weighing }) => weighing),
    cylinderTruth: written.flatMap(({ truth }) => truth ?? []),
  };
}

/** What was recovered, weighed some minutes after the start and well before the charge; undefined where nothing was. */
function recoveryRow(random: Random, record: JobRecord, job: Job, recoveries: RecoveryStore): Weighing | undefined {
  const { day, durationS, technician, system } = record;
  const afterMin = random.uniform(3, 15);
  const { recovered_kg: kg, system_id } = job;
  if (kg === undefined || kg === 0) return undefined;
  const weighingId = `weighing-${String(record.number).padStart(6, '0')}-r`;
  const latestDay = day + durationS / 2 / 60 / DAY_MIN;
  const entry = recoveries.put({
    technicianId: technician.technicianId,
    refrigerant: system.refrigerant,
    kg,
    weighingId,
    day: Math.min(day + afterMin / DAY_MIN, latestDay),
    latestDay,
  });
  return {
    weighing_id: weighingId,
    job_id: job.job_id,
    cylinder_id: entry.cylinderId,
    refrigerant: system.refrigerant,
    direction: 'out',
    at: instantOfDay(entry.day),
    start_kg: entry.startKg,
    end_kg: entry.endKg,
    ...(system_id === undefined ? {} : { system_id }),
    purpose: 'recovery',
  };
}
