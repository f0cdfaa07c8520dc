import { jobPage } from '../../src/pages/job-page.ts';
import { pageShell } from '../../src/pages/page-shell.ts';
import type { JobEvidence } from '../../src/pages/job-evidence-data.ts';
import type { UnitSystem } from '../../src/units/display.ts';
import { readIn } from './read-in.ts';

/** The page of a job as it reads in one system of units. */
export async function readJobPage(job: JobEvidence, units: UnitSystem = 'ip'): Promise<string> {
  const judged = { ...job, policyId: 'as-recorded', policyTitle: 'As recorded' };
  return readIn(await pageShell(jobPage(() => judged, { units, dates: 'day-first' })), units);
}
