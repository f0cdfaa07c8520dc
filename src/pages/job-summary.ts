import { momentText } from './day-text.ts';
import type { Outcome } from '../checks/check.ts';
import { namedId } from './named-id.ts';
import type { JobEvidence, JobFinding } from './service-manager-data.ts';
import { outcomesWorstFirst } from './outcome-tag.ts';

/** The findings of a job that ask for a look, worst first. */
export function flaggedFindings(job: JobEvidence): JobFinding[] {
  const flagged: readonly Outcome[] = ['fail', 'suspect'];
  return job.findings
    .filter(({ outcome }) => flagged.includes(outcome))
    .toSorted((a, b) => outcomesWorstFirst.indexOf(a.outcome) - outcomesWorstFirst.indexOf(b.outcome));
}

/** Who did what, where and when, as far as it is known. */
export function jobSummary(job: JobEvidence): string {
  const work = [job.refrigerant, job.workType].filter((part) => part !== null).join(' ');
  const system = job.systemId === null ? null : namedId('system', job.systemId);
  const site = job.siteId === null ? null : namedId('site', job.siteId);
  const crew = job.crewId === null ? null : namedId('crew', job.crewId);
  return [momentText(job.startedAt), job.technician, crew, work, system, site].filter(Boolean).join(' · ');
}
