import type { Store } from '../../src/store/store.ts';
import type { Draw } from './draws.ts';

/** Charges that a cylinder gives before the next one is taken, and what it comes with [kg]. */
const chargesPerCylinder = 8;
const netKg = 11.34;
const tareKg = 3.6;

/**
 * Cylinders with the weighings of every job, appliances with their charges, and what jobs should have put in: one weighing a job, a
 * cylinder for eight of them, one appliance of fifty large enough for a rule, and one weighing in a hundred that does not fit.
 *
 * The jobs and their facts come first.
 */
export async function makeLargeAccounts(store: Store, draw: Draw): Promise<void> {
  const number = 'substr(job_id, 3)::BIGINT';
  await store.run(`CREATE OR REPLACE TEMP TABLE account_jobs AS
    SELECT *, sum(drawn_kg) OVER (PARTITION BY cylinder_id ORDER BY k ROWS UNBOUNDED PRECEDING) - drawn_kg AS before_kg
    FROM (SELECT *, technician_id || '-' || refrigerant || '-' || k // ${chargesPerCylinder} AS cylinder_id
      FROM (SELECT job_id, system_id, technician_id, refrigerant, started_at, work_type, scale_step_kg AS step_kg,
          row_number() OVER (PARTITION BY technician_id, refrigerant ORDER BY started_at, job_id) - 1 AS k,
          round(0.2 + ${draw('drawn', number)}, 3) AS drawn_kg, ${draw('does not fit', number)} < 0.01 AS is_off
        FROM jobs))`);
  await store.transaction(async () => {
    const shown = (kg: string) => `round(round((${kg}) / step_kg) * step_kg, 3)`;
    await store.run(`INSERT INTO weighings (weighing_id, job_id, cylinder_id, refrigerant, direction, "at", start_kg, end_kg, system_id, purpose)
      SELECT 'W' || substr(job_id, 2), job_id, cylinder_id, refrigerant, 'in', started_at,
        ${shown(`${tareKg + netKg} - before_kg - if(is_off, 0.7, 0)`)}, ${shown(`${tareKg + netKg} - before_kg - drawn_kg`)}, system_id,
        CASE WHEN work_type IN ('install', 'replace') THEN 'install' WHEN work_type = 'retrofit' THEN 'retrofit' ELSE 'leak' END
      FROM account_jobs ORDER BY job_id`);
    await store.run(`INSERT INTO cylinders (cylinder_id, refrigerant, acquired_on, net_kg, cost, kind, tare_kg, capacity_kg, closed_on, closing_kg)
      SELECT cylinder_id, any_value(refrigerant), min(left(started_at, 10)::DATE) - 3, ${netKg}, 250, 'supply', ${tareKg}, ${netKg},
        CASE WHEN count(*) = ${chargesPerCylinder} THEN max(left(started_at, 10)::DATE) END,
        CASE WHEN count(*) = ${chargesPerCylinder} THEN round(${netKg} - sum(drawn_kg), 2) END
      FROM account_jobs GROUP BY cylinder_id ORDER BY cylinder_id`);
    await store.run(`UPDATE facts SET charged_from = 'weighings', drawn_kg = a.drawn_kg, charged_kg = a.drawn_kg - 0.02,
        charge_wanted_kg = a.drawn_kg - 0.05, charge_deviation_kg = 0.03, charge_deviation_low_kg = 0.01, charge_deviation_high_kg = 0.05
      FROM account_jobs a WHERE a.job_id = facts.job_id AND a.drawn_kg > 0.3`);
    await store.run(`INSERT INTO appliances (system_id, site_id, refrigerant, full_charge_kg, sector, installed_on, jurisdiction)
      SELECT system_id, 'L-' || substr(system_id, 3), any_value(refrigerant),
        CASE WHEN is_large THEN 20 ELSE 3 END, CASE WHEN is_large THEN 'commercial-refrigeration' ELSE 'residential-comfort' END,
        min(left(started_at, 10)::DATE), 'US'
      FROM (SELECT *, ${draw('large', 'substr(system_id, 3)::BIGINT')} < 0.02 AS is_large FROM account_jobs)
      GROUP BY system_id, is_large ORDER BY system_id`);
  });
}
