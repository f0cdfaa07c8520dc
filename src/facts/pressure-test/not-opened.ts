import type { Facts } from '../../records/tables/facts.ts';
import type { Job } from '../../records/tables/jobs.ts';

/** Work that leaves the circuit shut unless the record says otherwise. */
const shutWork: ReadonlySet<Job['work_type']> = new Set(['recharge', 'service', 'decommission']);

/** That no pressure test was to be looked for, since the circuit was not opened; nothing where there was one, or may have been. */
export function notOpenedFacts(measured: Partial<Facts>, job: Job | undefined): Partial<Facts> {
  if (measured.pressure_readings !== undefined || job === undefined) return {};
  // Nobody evacuates what was not opened.
  const isEvacuated = measured.vacuum_readings !== undefined;
  const isShut = job.opened_circuit === undefined ? shutWork.has(job.work_type) && !isEvacuated : !job.opened_circuit;
  return isShut ? { pressure_problem: 'not-opened' } : {};
}
