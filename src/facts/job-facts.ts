import type { Facts } from '../records/tables/facts.ts';
import { chargeFacts } from './charge-facts.ts';
import type { JobRecords } from './job-material.ts';
import { lossFacts } from './leak-loss.ts';

/**
 * What was measured and computed on one job. Knows no policy; never throws for what the data are.
 *
 * @param vacuum the facts of its vacuum log; empty where there is none
 */
export function jobFacts(records: JobRecords, vacuum: Partial<Facts>): Facts {
  return { job_id: records.jobId, ...vacuum, ...lossFacts(vacuum, records.job), ...chargeFacts(records) };
}
