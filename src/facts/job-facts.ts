import type { Facts } from '../records/tables/facts.ts';
import { chargeFacts } from './charge/charge-facts.ts';
import type { JobRecords } from './job-material.ts';
import { lossFacts } from './leak-loss.ts';
import { notOpenedFacts } from './pressure-test/not-opened.ts';
import { ruledOutFacts } from './ruled-out.ts';
import { testLossFacts } from './test-loss.ts';

/**
 * What was measured and computed on one job. Knows no policy; never throws for what the data are.
 *
 * @param measured the facts of its readings together; empty where there are none
 */
export function jobFacts(records: JobRecords, measured: Partial<Facts>): Facts {
  const { jobId, job } = records;
  return {
    job_id: jobId,
    ...measured,
    ...lossFacts(measured, job),
    ...notOpenedFacts(measured, job),
    ...testLossFacts(measured, job),
    ...ruledOutFacts(measured, job),
    ...chargeFacts(records, measured),
  };
}
