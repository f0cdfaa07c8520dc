-- Each callback with the work that it traces to: the job that the source names, where that was done before it; else the latest on its system.
CREATE OR REPLACE TEMP TABLE traced_callbacks AS
WITH reported AS (
  SELECT *, reported_at::TIMESTAMPTZ AS at, left(reported_at, 10)::DATE AS on_day FROM callbacks
), commissionings AS (
  SELECT * FROM temp.circuit_work WHERE commissions
), by_system AS (
  SELECT r.callback_id, w.job_id, w.done_on
  FROM reported r ASOF JOIN (FROM commissionings ORDER BY done_at, job_id) w ON r.system_id = w.system_id AND r.at >= w.done_at
)
SELECT r.callback_id, r.reported_at, r.system_id, r.reason, r.cause_found, r.refrigerant_added_kg, r.cost,
  coalesce(n.job_id, s.job_id) AS traced_job_id,
  CASE WHEN n.job_id IS NOT NULL THEN 'job' WHEN s.job_id IS NOT NULL THEN 'system'
    WHEN r.system_id IS NULL AND r.job_id IS NULL THEN 'not-named' ELSE 'no-work-before' END AS traced_by,
  datediff('day', DATE '1970-01-01', r.on_day)::INTEGER AS day,
  CASE WHEN coalesce(n.job_id, s.job_id) IS NOT NULL
    THEN greatest(0, datediff('day', coalesce(n.done_on, s.done_on), r.on_day)) END::INTEGER AS days_after
FROM reported r
LEFT JOIN commissionings n ON n.job_id = r.job_id AND n.done_at <= r.at
LEFT JOIN by_system s ON s.callback_id = r.callback_id
ORDER BY r.at, r.callback_id
