import { standardAtmosphere } from '../physics/standard-atmosphere.ts';
import type { Job } from '../records/tables/jobs.ts';

/** The air's pressure at the site [Pa]: the barometer, else that of its altitude, else of the sea. */
export function siteAtmosphere(job: Pick<Job, 'barometer_pa' | 'altitude_m'> | undefined): number {
  return job?.barometer_pa ?? standardAtmosphere(job?.altitude_m ?? 0);
}
