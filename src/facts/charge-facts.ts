import type { Facts } from '../records/tables/facts.ts';
import type { Job } from '../records/tables/jobs.ts';
import type { Weighing } from '../records/tables/weighings.ts';
import type { JobRecords } from './job-material.ts';

type ChargeProblem = NonNullable<Facts['charge_problem']>;
type Line = Pick<Job, 'line_length_m' | 'factory_line_m' | 'line_adder_kg_per_m'>;

/** Work on which refrigerant is put in. */
const chargingWork: ReadonlySet<string | undefined> = new Set([
  'install',
  'replace',
  'repair',
  'recharge',
  'retrofit',
  undefined,
]);

/** What the record says of the charge: the system's target, what went in, and how far that is from what should have. */
export function chargeFacts(records: JobRecords): Partial<Facts> {
  const { job } = records;
  if (job === undefined) return {};
  const target = chargeTarget(records);
  const charged = chargedMass(records);
  const facts: Partial<Facts> = {
    ...('kg' in target ? { charge_target_kg: target.kg } : {}),
    ...(charged === undefined
      ? {}
      : {
          charged_kg: charged.kg,
          ...(charged.residualKg === undefined ? {} : { hose_residual_kg: charged.residualKg }),
        }),
  };
  if (charged === undefined && !chargingWork.has(job.work_type))
    return { ...facts, charge_problem: 'no-charging-work' };
  if (charged === undefined) return { ...facts, charge_problem: 'no-weigh-in' };
  if ('problem' in target) return { ...facts, charge_problem: target.problem };
  const wanted = wantedMass(job, target.kg);
  if ('problem' in wanted) return { ...facts, charge_problem: wanted.problem };
  return { ...facts, charge_wanted_kg: wanted.kg, charge_deviation_kg: charged.kg - wanted.kg };
}

/**
 * The charge that the whole system wants: factory charge, what each line needs beyond the length that the factory
 * charge covers by the recorded adder, and other adders.
 */
function chargeTarget({ job, lineSets }: JobRecords): { kg: number } | { problem: ChargeProblem } {
  if (job?.factory_charge_kg === undefined) return { problem: 'no-factory-charge' };
  let kg = job.factory_charge_kg + (job.other_adder_kg ?? 0);
  const lines: readonly Line[] = lineSets.length > 0 ? lineSets : [job];
  for (const line of lines) {
    if (line.line_length_m === undefined) return { problem: 'no-line-length' };
    if (line.factory_line_m === undefined) return { problem: 'no-covered-length' };
    const beyondM = line.line_length_m - line.factory_line_m;
    if (beyondM <= 0) continue;
    if (line.line_adder_kg_per_m === undefined) return { problem: 'no-adder' };
    kg += beyondM * line.line_adder_kg_per_m;
  }
  return { kg };
}

/**
 * What went in, net of hose residual: the record's figure, else the weighings in, less what was let out again after them.
 * What was recovered before is no part of it: it was in there before the job.
 */
function chargedMass({ job, weighings }: JobRecords): { kg: number; residualKg?: number } | undefined {
  if (job?.weighed_in_kg !== undefined) {
    return { kg: job.weighed_in_kg - (job.hose_residual_kg ?? 0), residualKg: job.hose_residual_kg };
  }
  let kg = 0;
  let residualKg: number | undefined;
  let counted = 0;
  for (const { direction, purpose, start_kg, end_kg, hose_residual_kg } of inOrder(weighings)) {
    if (start_kg === undefined || end_kg === undefined) continue;
    const trimmed = direction === 'out' && counted > 0 && purpose !== 'recovery';
    if (direction !== 'in' && !trimmed) continue;
    // The scale falls by what goes in and rises by what comes out; what stays in the hoses is in neither vessel.
    kg += start_kg - end_kg - (hose_residual_kg ?? 0);
    if (hose_residual_kg !== undefined) residualKg = (residualKg ?? 0) + hose_residual_kg;
    counted += 1;
  }
  return counted === 0 ? undefined : { kg, residualKg };
}

/** Weighings by their time; those without keep their place behind the others. */
function inOrder(weighings: readonly Weighing[]): Weighing[] {
  const timeOf = ({ at }: Weighing) => (at === undefined ? Number.POSITIVE_INFINITY : Date.parse(at));
  return [...weighings].sort((a, b) => (timeOf(a) === timeOf(b) ? 0 : timeOf(a) - timeOf(b)));
}

/** What this job should have put in: beyond the factory charge for a pre-charged unit, all of it after an evacuation. */
function wantedMass(job: Job, targetKg: number): { kg: number } | { problem: ChargeProblem } {
  // A new split unit comes pre-charged unless the record says otherwise: common practice, no source.
  const basis =
    job.charge_basis ?? (job.work_type === 'install' || job.work_type === 'replace' ? 'pre-charged' : undefined);
  if (basis === undefined) return { problem: 'no-charge-basis' };
  if (basis === 'top-up') return { problem: 'top-up' };
  return { kg: basis === 'empty' ? targetKg : targetKg - (job.factory_charge_kg ?? 0) };
}
