import { query } from './sql.ts';
import type { Store } from './store.ts';

/** What the jobs of a technician should have put in of a refrigerant in a month, and did. */
export interface NeededCharged {
  readonly technician_id: string | null;
  /** YYYY-MM. */
  readonly month: string;
  readonly refrigerant: string | null;
  readonly jobs: number;
  /** Jobs that are too unsure to be added up. */
  readonly unsure: number;
  readonly wanted_kg: number;
  readonly charged_kg: number;
  /** Charged less wanted, and its variance [kg²]. */
  readonly over_kg: number;
  readonly variance: number;
  /** Jobs whose 95 % interval lies above what was wanted, and below. */
  readonly surely_over: number;
  readonly surely_over_kg: number;
  readonly surely_under: number;
  readonly surely_under_kg: number;
}

/** A job that put in surely more than it should have. */
export interface OverchargedJob {
  readonly job_id: string;
  readonly started_at: string;
  readonly technician_id: string | null;
  readonly refrigerant: string | null;
  readonly charge_wanted_kg: number;
  readonly charged_kg: number;
  readonly charge_deviation_kg: number;
  readonly charge_deviation_low_kg: number;
  readonly charge_deviation_high_kg: number;
  readonly charge_slip: string | null;
}

/** A job is added up where half of its 95 % interval is no wider [kg]. Common practice, no source. */
const mostUnsureKg = 0.5;

/** What was needed and charged over some days, ISO 8601, both included. */
export async function readNeededCharged(store: Store, from: string, to: string): Promise<NeededCharged[]> {
  return store.rows<NeededCharged & Record<string, unknown>>(query('needed-charged'), [from, to, mostUnsureKg]);
}

/** The jobs of those days that put in the most beyond what they should have, where that is sure. */
export async function readOverchargedJobs(
  store: Store,
  { from, to, most }: { readonly from: string; readonly to: string; readonly most: number },
): Promise<OverchargedJob[]> {
  return store.rows<OverchargedJob & Record<string, unknown>>(
    `SELECT job_id, j.started_at, j.technician_id, j.refrigerant, charge_wanted_kg, charged_kg, charge_deviation_kg,
       charge_deviation_low_kg, charge_deviation_high_kg, charge_slip
     FROM facts JOIN jobs j USING (job_id)
     WHERE charge_deviation_low_kg > 0 AND charge_deviation_high_kg - charge_deviation_low_kg <= ${2 * mostUnsureKg} AND left(j.started_at, 10)::DATE BETWEEN $1::DATE AND $2::DATE
     ORDER BY charge_deviation_kg DESC, job_id LIMIT ${most}`,
    [from, to],
  );
}
