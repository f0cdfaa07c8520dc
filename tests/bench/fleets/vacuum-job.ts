import type { Job } from '../../../src/records/tables/jobs.ts';
import { dateOfDay, days, instantOfDay, seasonC } from '../../../src/simulate/calendar.ts';
import { crews } from '../../../src/simulate/crews.ts';
import type { Readings } from '../../../src/simulate/recorder.ts';
import { shop } from '../../../src/simulate/shop.ts';
import { drawSystem, type SystemType } from '../../../src/simulate/system.ts';
import { onDay, technicians } from '../../../src/simulate/technicians.ts';
import { simulateVacuumLog, type VacuumLog } from '../../../src/simulate/vacuum-log.ts';
import { FastRandom } from './fast-random.ts';

/** Jobs of which nothing but the evacuation is logged. */
export interface VacuumLogFleet {
  readonly seed: number;
  readonly jobs: number;
  /** How often every gauge logs [s]. */
  readonly intervalS: number;
  /** The jobs are numbered on from there, and all lie on one day; absent: over the year, from 1. */
  readonly oneDay?: { readonly firstNumber: number; readonly day: number };
}

/** Readings of a job in the mean where its gauge logs every second; measured on 10,000 jobs. */
const readingsEverySecond = 1740;

/** How often gauges log, for so many readings a job in the mean [s]. */
export function intervalFor(readingsPerJob: number): number {
  return Math.round((100 * readingsEverySecond) / readingsPerJob) / 100;
}

/** When a job is, in days since the first, with its fraction. */
export function dayOf({ jobs, oneDay }: VacuumLogFleet, number: number): number {
  if (oneDay !== undefined) return oneDay.day + (7.5 + (9 * (number - oneDay.firstNumber)) / jobs) / 24;
  const at = ((number - 1) * days) / jobs;
  return Math.floor(at) + (7.5 + 9 * (at % 1)) / 24;
}

export function monthOf(fleet: VacuumLogFleet, number: number): string {
  return dateOfDay(dayOf(fleet, number)).slice(0, 7);
}

export function jobIdOf(number: number): string {
  return `job-${String(number).padStart(7, '0')}`;
}

/** Evacuates the job of that number by the physics of `simulate`, with random numbers of its own: its row and what was logged of it. */
export function vacuumJob(fleet: VacuumLogFleet, number: number): { job: Job; readings: Readings | undefined } {
  const random = new FastRandom(fleet.seed, number);
  const day = dayOf(fleet, number);
  const technician = onDay(random.choice(technicians), day);
  const crew = crews.find(({ crewId }) => crewId === technician.crewId) ?? crews[0];
  const used = random.chance(crew.repairShare);
  const system = drawSystem(random, random.weighted<SystemType>(crew.systemTypes), used);
  const { altitudeM } = random.choice(shop.districts);
  const log = simulateVacuumLog({
    random,
    technician,
    crew,
    day,
    system,
    used,
    lineC: Math.min(38, Math.max(4, (seasonC(day) + 20) / 2 + random.normal(0, 3))),
    altitudeM,
    charge: { massKg: random.uniform(0.1, 2), cylinderKg: 9, scaleStepKg: 0.005, scaleLogged: false },
    intervalS: fleet.intervalS,
  });
  const job: Job = {
    job_id: jobIdOf(number),
    system_id: `system-${number}`,
    work_type: used ? 'repair' : 'install',
    started_at: instantOfDay(day),
    ended_at: instantOfDay(day + log.durationS / 86_400),
    technician_id: technician.technicianId,
    crew_id: crew.crewId,
    refrigerant: system.refrigerant,
    system_type: system.type,
    altitude_m: altitudeM,
    circuit_volume_l: rounded(system.circuitM3 * 1000, 0.1),
    tested_volume_l: rounded(system.testedM3 * 1000, 0.01),
    pump_speed_l_per_s: crew.pumpSpeedLPerS,
    hose_bore_mm: crew.hoseBoreMm,
    hose_length_m: crew.hoseLengthM,
    ...askedAndMeasured(log),
  };
  return { job, readings: log.readings };
}

/** What the record asks of the evacuation, and by what it was measured. */
function askedAndMeasured({ protocol, gauge, gaugeAtPump, coresIn }: VacuumLog): Partial<Job> {
  return {
    ...(protocol && {
      vacuum_target_pa: rounded(protocol.targetPa, 0.01),
      hold_target_s: protocol.holdS,
      rise_test_s: protocol.riseS,
      rise_limit_pa: rounded(protocol.limitPa, 0.01),
      rise_limit_kind: protocol.limitKind,
    }),
    cores_removed: !coresIn,
    gauge_id: gauge.gaugeId,
    gauge_position: gaugeAtPump ? 'pump' : 'system',
    gauge_accuracy_ratio: gauge.accuracyRatio,
    gauge_step_pa: rounded(gauge.stepPa, 1e-6),
  };
}

function rounded(value: number, step: number): number {
  return Math.round(Math.round(value / step) * step * 1e6) / 1e6;
}
