import { renderJobPage } from '../../src/pages/job-page.ts';
import type { JobEvidence } from '../../src/pages/job-evidence-data.ts';
import type { UnitSystem } from '../../src/units/display.ts';
import { readIn } from './read-in.ts';

/** The page of a job as it reads in one system of units. */
export async function readJobPage(job: JobEvidence, units: UnitSystem = 'ip'): Promise<string> {
  const judged = { ...job, policyId: 'as-recorded', policyTitle: 'As recorded' };
  return readIn(await renderJobPage(() => judged, { units, dates: 'day-first' }), units);
}
