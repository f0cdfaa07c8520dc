-- Every job with the shard it belongs to: the month in which it began, on the shop's own clock, and its place among the jobs of that month, $1 to a
-- shard. A job that no record tells of has no month.
CREATE OR REPLACE TEMP TABLE sharded_jobs AS
SELECT job_id, month, (place - 1) // $1::BIGINT AS number, place
FROM (
  SELECT r.job_id, coalesce(left(j.started_at, 7), 'undated') AS month,
    row_number() OVER (PARTITION BY coalesce(left(j.started_at, 7), 'undated') ORDER BY r.job_id) AS place
  FROM job_revisions r LEFT JOIN jobs j USING (job_id))
