import type { Facts } from '../records/tables/facts.ts';
import { chargeFacts } from './charge-facts.ts';
import type { JobMaterial } from './job-material.ts';
import { vacuumFacts } from './vacuum-facts.ts';

/** What was measured and computed on one job. Knows no policy; never throws for what the data are. */
export function jobFacts(material: JobMaterial): Facts {
  return { job_id: material.jobId, ...vacuumFacts(material), ...chargeFacts(material) };
}
