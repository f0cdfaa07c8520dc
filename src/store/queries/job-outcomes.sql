-- Per job: whether any check could judge it, whether any flagged it, and who did it when.
CREATE OR REPLACE TEMP TABLE job_outcomes AS
SELECT f.job_id, j.started_at, left(j.started_at, 10) AS day, left(j.started_at, 7) AS month, j.technician_id, c.crew_id,
  bool_or(f.outcome IN ('pass', 'suspect', 'fail')) AS judged,
  bool_or(f.outcome IN ('suspect', 'fail')) AS flagged,
  count(*) FILTER (f.outcome = 'fail') AS fails,
  count(*) FILTER (f.outcome = 'suspect') AS suspects
FROM findings f LEFT JOIN jobs j USING (job_id) LEFT JOIN temp.job_crews c USING (job_id)
WHERE f.policy_id = $1
GROUP BY ALL
