import type { Facts } from '../records/tables/facts.ts';
import { chargeFacts } from './charge-facts.ts';
import type { JobMaterial } from './job-material.ts';
import { vacuumFacts } from './vacuum-facts.ts';

/**
 * What was measured and computed on one job. Knows no policy; never throws for what the data are.
 *
 * @param vacuum the facts of the vacuum log, where another thread has computed them already
 */
export function jobFacts(material: JobMaterial, vacuum: Partial<Facts> = vacuumFacts(material)): Facts {
  return { job_id: material.jobId, ...vacuum, ...chargeFacts(material) };
}
