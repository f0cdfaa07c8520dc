import type { Random } from '../numerics/random.ts';
import type { Appliance } from '../records/tables/appliances.ts';
import type { Job } from '../records/tables/jobs.ts';
import type { LineSet } from '../records/tables/line-sets.ts';
import { dateOfDay, instantOfDay } from './calendar.ts';
import type { ChargePlan } from './charge-plan.ts';
import type { Crew } from './crews.ts';
import type { JobLog } from './job-log.ts';
import type { Revisit } from './revisits.ts';
import type { JobRunTest } from './run/job-run-test.ts';
import type { JobScale } from './scale/job-scale.ts';
import type { shop } from './shop.ts';
import type { System } from './system.ts';
import type { Technician } from './technicians.ts';

/** Everything that the rows of a job are written from. */
export interface JobRecord {
  readonly number: number;
  readonly day: number;
  readonly technician: Technician;
  readonly crew: Crew;
  readonly system: System;
  readonly used: boolean;
  /** True where refrigerant is only added. */
  readonly topUp: boolean;
  readonly district: (typeof shop.districts)[number];
  readonly plan: ChargePlan;
  readonly scale: JobScale;
  /** False where the record lacks the maker's adder, which the technician used all the same. */
  readonly adderRecorded: boolean;
  /** Undefined for a top-up. */
  readonly log: JobLog | undefined;
  readonly runTest: JobRunTest;
  readonly random: Random;
  readonly durationS: number;
  readonly endDay: number;
  readonly revisit: Revisit | undefined;
}

const numbered = (word: string, number: number) => `${word}-${String(number).padStart(6, '0')}`;
const rounded = (value: number, step: number) => Math.round(Math.round(value / step) * step * 1e6) / 1e6;

/** The `jobs` row: what a shop would have on record, to the precision it would have it in. */
export function jobRow(record: JobRecord): Job {
  const { number, day, technician, crew, system, used, topUp, district, plan, log, random, revisit } = record;
  const line = system.lines.length === 1 ? system.lines[0] : undefined;
  return {
    job_id: numbered('job', number),
    system_id: revisit?.systemId ?? numbered('system', number),
    site_id: revisit?.siteId ?? `${district.name}-${number}`,
    work_type: topUp ? 'recharge' : used ? 'repair' : random.chance(0.3) ? 'replace' : 'install',
    started_at: instantOfDay(day),
    ended_at: instantOfDay(record.endDay),
    technician_id: technician.technicianId,
    crew_id: crew.crewId,
    refrigerant: system.refrigerant,
    system_type: system.type,
    metering: system.metering,
    compressor: system.compressor,
    rated_cooling_w: system.ratedCoolingW,
    altitude_m: district.altitudeM,
    factory_charge_kg: system.factoryChargeKg,
    ...(line && {
      line_length_m: line.lengthM,
      factory_line_m: line.coveredM,
      liquid_line_od_mm: line.size,
      suction_line_od_mm: line.suctionMm,
      ...(record.adderRecorded ? { line_adder_kg_per_m: line.adderKgPerM } : {}),
    }),
    weighed_in_kg: record.scale.weighedInKg,
    ...record.scale.hoseColumns,
    ...(random.chance(0.4) ? { circuit_volume_l: rounded(system.circuitM3 * 1000, 0.1) } : {}),
    ...(random.chance(0.6) ? { tested_volume_l: rounded(system.testedM3 * 1000, 0.01) } : {}),
    charge_basis: topUp ? 'top-up' : used ? 'empty' : 'pre-charged',
    ...(used && !topUp ? { recovered_kg: rounded(plan.targetKg * random.uniform(0.3, 0.95), crew.scaleStepKg) } : {}),
    ...(revisit === undefined ? {} : { followup_of_job_id: revisit.jobId }),
    metering_location: system.type === 'ducted' ? 'indoor' : 'outdoor',
    scale_id: crew.scaleId,
    scale_step_kg: crew.scaleStepKg,
    ...(log && vacuumColumns(log, crew)),
    ...(log && random.chance(0.2) ? { barometer_pa: rounded(log.barometerPa, 10) } : {}),
    ...(log && testColumns(log)),
    ...record.runTest.columns,
  };
}

/** The columns that say what was asked of the pressure test, and what the system is rated for. */
function testColumns({ pressureTest: { plan, recorded }, barometerPa }: JobLog): Partial<Job> {
  const absolute = (gaugePa: number) => rounded(gaugePa + barometerPa, 1);
  return {
    ...(recorded.target && { test_pressure_target_pa: absolute(plan.targetPa), test_pressure_hold_s: plan.holdS }),
    ...(recorded.design && {
      design_low_pa: absolute(plan.design.lowPa),
      design_high_pa: absolute(plan.design.highPa),
    }),
  };
}

/** The columns that say how the system was evacuated, and what was asked. */
function vacuumColumns({ protocol, gauge, gaugeAtPump, coresIn, clamp }: JobLog, crew: Crew): Partial<Job> {
  return {
    ...(protocol && {
      vacuum_target_pa: rounded(protocol.targetPa, 0.01),
      hold_target_s: protocol.holdS,
      rise_test_s: protocol.riseS,
      rise_limit_pa: rounded(protocol.limitPa, 0.01),
      rise_limit_kind: protocol.limitKind,
    }),
    pump_speed_l_per_s: crew.pumpSpeedLPerS,
    pump_id: crew.pumpId,
    hose_set_id: crew.hoseSetId,
    hose_bore_mm: crew.hoseBoreMm,
    hose_length_m: crew.hoseLengthM,
    cores_removed: !coresIn,
    gauge_id: gauge.gaugeId,
    gauge_position: gaugeAtPump ? 'pump' : 'system',
    gauge_accuracy_ratio: gauge.accuracyRatio,
    gauge_step_pa: rounded(gauge.stepPa, 1e-6),
    ...(clamp ? { clamp_accuracy_k: 0.5 } : {}),
  };
}

/** The `line_sets` rows of a multi-zone job; none for a job with one line set. */
export function lineSetRows(record: JobRecord, jobId: string): LineSet[] {
  if (record.system.lines.length === 1) return [];
  return record.system.lines.map((line, index) => ({
    job_id: jobId,
    line_set_id: `zone-${index + 1}`,
    line_length_m: line.lengthM,
    factory_line_m: line.coveredM,
    liquid_line_od_mm: line.size,
    suction_line_od_mm: line.suctionMm,
    ...(record.adderRecorded ? { line_adder_kg_per_m: line.adderKgPerM } : {}),
  }));
}

/** The `appliances` row of the system; one that has run before was installed some years ago. */
export function applianceRow(record: JobRecord, job: Job): Appliance {
  const { used, day, system, plan, random } = record;
  return {
    system_id: job.system_id ?? job.job_id,
    ...(job.site_id === undefined ? {} : { site_id: job.site_id }),
    refrigerant: system.refrigerant,
    full_charge_kg: rounded(plan.targetKg, 0.01),
    sector: 'residential-comfort',
    installed_on: dateOfDay(used ? day - random.integer(700, 4500) : day),
    jurisdiction: 'US',
  };
}
