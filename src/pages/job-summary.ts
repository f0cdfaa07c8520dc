import { momentText } from './day-text.ts';
import { namedId } from './named-id.ts';
import type { JobEvidence } from './job-evidence-data.ts';

/** Who did what, where and when, as far as it is known. */
export function jobSummary(
  job: Pick<JobEvidence, 'startedAt' | 'technician' | 'crewId' | 'systemId' | 'siteId' | 'refrigerant' | 'workType'>,
): string {
  const work = [job.refrigerant, job.workType].filter((part) => part !== null).join(' ');
  const system = job.systemId === null ? null : namedId('system', job.systemId);
  const site = job.siteId === null ? null : namedId('site', job.siteId);
  const crew = job.crewId === null ? null : namedId('crew', job.crewId);
  return [momentText(job.startedAt), job.technician, crew, work, system, site].filter(Boolean).join(' · ');
}
