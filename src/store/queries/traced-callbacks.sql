-- Each callback with the work that it traces to: the job that the source names, where that was not done after it; else the work on its system
-- that was done last before it.
CREATE OR REPLACE TEMP TABLE traced_callbacks AS
WITH reported AS (
  SELECT *, reported_at::TIMESTAMPTZ AS at, left(reported_at, 10)::DATE AS on_day FROM callbacks
), commissionings AS (
  SELECT * FROM temp.circuit_work WHERE commissions
), by_system AS (
  SELECT r.callback_id, max({done_at: w.done_at, began_at: w.began_at, job_id: w.job_id}).job_id AS job_id
  FROM reported r JOIN (SELECT done_at, began_at, job_id, system_id FROM commissionings) w
    ON r.system_id = w.system_id AND r.at >= w.done_at
  GROUP BY ALL
), traced AS (
  SELECT r.*, n.job_id AS named_job_id, coalesce(n.job_id, s.job_id) AS traced_job_id
  FROM reported r
  LEFT JOIN commissionings n ON n.job_id = r.job_id AND n.done_on <= r.on_day
  LEFT JOIN by_system s USING (callback_id)
)
SELECT t.callback_id, t.reported_at, t.system_id, t.reason, t.cause_found, t.refrigerant_added_kg, t.cost, t.traced_job_id,
  CASE WHEN t.named_job_id IS NOT NULL THEN 'job' WHEN t.traced_job_id IS NOT NULL THEN 'system'
    WHEN t.system_id IS NULL AND t.job_id IS NULL THEN 'not-named' ELSE 'no-work-before' END AS traced_by,
  -- By the clocks of two places a callback may seem to come the day before.
  datediff('day', DATE '1970-01-01', greatest(t.on_day, w.done_on))::INTEGER AS day,
  CASE WHEN w.job_id IS NOT NULL THEN greatest(0, datediff('day', w.done_on, t.on_day)) END::INTEGER AS days_after
FROM traced t LEFT JOIN commissionings w ON w.job_id = t.traced_job_id
ORDER BY t.at, t.callback_id
