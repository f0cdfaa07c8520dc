-- Per judged job: whether any check could judge it, whether any flagged it, and who did it when. From the two bit planes of its findings:
-- found 01, pass 10, not evaluated 11, missing 00.
CREATE OR REPLACE TEMP TABLE job_outcomes AS
SELECT o.job_id, j.started_at, left(j.started_at, 10) AS day, left(j.started_at, 7) AS month, j.technician_id, c.crew_id,
  xor(o.low, o.high) <> 0 AS judged, (o.low & ~o.high) <> 0 AS flagged
FROM temp.fleet_outcomes o LEFT JOIN jobs j USING (job_id) LEFT JOIN temp.job_crews c USING (job_id)
