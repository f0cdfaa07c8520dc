-- Of each judged job, by its place in the fleet: when its work was done, when the next work on the same circuit began, and whether that follows it up.
CREATE OR REPLACE TEMP TABLE job_courses AS
WITH next_on_system AS (
  SELECT job_id, lead(began_on) OVER same_system AS began_on, lead(followup_of_job_id) OVER same_system AS follows
  FROM temp.circuit_work WHERE system_id IS NOT NULL
  WINDOW same_system AS (PARTITION BY system_id ORDER BY began_at, job_id)
), follow_ups AS (
  SELECT followup_of_job_id AS job_id, min(began_on) AS began_on FROM temp.circuit_work
  WHERE followup_of_job_id IS NOT NULL GROUP BY ALL
)
SELECT f.rowid AS place, coalesce(w.commissions AND w.system_id IS NOT NULL, false) AS is_followed,
  datediff('day', DATE '1970-01-01', coalesce(w.done_on, DATE '1970-01-01'))::INTEGER AS done_day,
  coalesce(datediff('day', DATE '1970-01-01', least(n.began_on, u.began_on)), 'inf'::DOUBLE)::DOUBLE AS next_day,
  coalesce(u.began_on <= coalesce(n.began_on, u.began_on), false) AS next_follows_up
FROM temp.fleet_jobs f
LEFT JOIN temp.circuit_work w USING (job_id)
LEFT JOIN next_on_system n USING (job_id)
LEFT JOIN follow_ups u USING (job_id)
