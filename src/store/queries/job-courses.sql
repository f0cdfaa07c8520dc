-- Of each judged job, by its place in the fleet: when its work was done; when the next work on the same circuit began, whether that followed it up
-- and its place. Work under way at once is one piece: the row that was done last is the one that is watched.
CREATE OR REPLACE TEMP TABLE job_courses AS
WITH next_on_system AS (
  SELECT job_id, lead(job_id) OVER same_system AS next_job_id, lead(began_on) OVER same_system AS began_on,
    lead(followup_of_job_id) OVER same_system IS NOT DISTINCT FROM job_id AS follows_up
  FROM temp.circuit_work WHERE system_id IS NOT NULL
  WINDOW same_system AS (PARTITION BY system_id ORDER BY done_at, began_at, job_id)
), follow_ups AS (
  SELECT u.followup_of_job_id AS job_id, min({began_on: u.began_on, next_job_id: u.job_id}) AS first
  FROM temp.circuit_work u JOIN temp.circuit_work w ON w.job_id = u.followup_of_job_id
  WHERE u.job_id != w.job_id AND u.began_at >= w.done_at GROUP BY ALL
), nexts AS (
  SELECT w.job_id, w.done_on, w.commissions AND w.system_id IS NOT NULL AS is_followed,
    u.first.began_on <= coalesce(n.began_on, u.first.began_on) OR coalesce(n.follows_up, false) AS follows_up,
    greatest(least(n.began_on, u.first.began_on), w.done_on) AS began_on,
    CASE WHEN u.first.began_on <= coalesce(n.began_on, u.first.began_on) THEN u.first.next_job_id ELSE n.next_job_id END AS next_job_id
  FROM temp.circuit_work w LEFT JOIN next_on_system n USING (job_id) LEFT JOIN follow_ups u USING (job_id)
)
SELECT f.rowid AS place, coalesce(x.is_followed, false) AS is_followed,
  datediff('day', DATE '1970-01-01', coalesce(x.done_on, DATE '1970-01-01'))::INTEGER AS done_day,
  coalesce(datediff('day', DATE '1970-01-01', CASE WHEN x.next_job_id IS NOT NULL THEN x.began_on END), 'inf'::DOUBLE)::DOUBLE AS next_day,
  -- A second visit within some days is part of the same work.
  coalesce(x.follows_up AND x.began_on >= x.done_on + 3, false) AS next_follows_up,
  coalesce(g.rowid, -1)::INTEGER AS next_place
FROM temp.fleet_jobs f
LEFT JOIN nexts x USING (job_id)
LEFT JOIN temp.fleet_jobs g ON g.job_id = x.next_job_id
