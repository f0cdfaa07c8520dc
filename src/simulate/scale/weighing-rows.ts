import type { Job } from '../../records/tables/jobs.ts';
import type { Weighing } from '../../records/tables/weighings.ts';
import { instantOfDay } from '../calendar.ts';
import type { JobRecord } from '../job-rows.ts';

const DAY_S = 86_400;

/** The `weighings` rows of what went out of a cylinder into the system: two where it was changed or the scale set to 0. */
export function weighingRows({ number, day, system, used, scale, durationS }: JobRecord, job: Job): Weighing[] {
  const last = scale.weighings.length - 1;
  return scale.weighings.map(({ cylinderId, startKg, endKg }, index) => ({
    weighing_id: `weighing-${String(number).padStart(6, '0')}${index === 0 ? '' : `-${index + 1}`}`,
    job_id: job.job_id,
    cylinder_id: cylinderId,
    refrigerant: system.refrigerant,
    direction: 'in',
    at: instantOfDay(day + (durationS - 60 * (last - index)) / DAY_S),
    start_kg: startKg,
    end_kg: endKg,
    // What stays in the hose is left there once, after the last of them.
    ...(index < last || job.hose_residual_kg === undefined ? {} : { hose_residual_kg: job.hose_residual_kg }),
    ...(job.system_id === undefined ? {} : { system_id: job.system_id }),
    purpose: used ? 'leak' : 'install',
  }));
}
