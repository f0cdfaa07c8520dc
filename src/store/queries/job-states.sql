-- On what the judgement of each job in `temp.wanted_jobs` rests: its revision, and a digest of its records and of its readings, which
-- `temp.reading_sums` sums up. Parts are mixed without order, so that none is held.
CREATE OR REPLACE TEMP TABLE job_states AS
WITH parts AS (
  SELECT job_id, 'job ' || t::VARCHAR AS part FROM jobs t SEMI JOIN temp.wanted_jobs USING (job_id)
  UNION ALL
  SELECT job_id, 'line ' || t::VARCHAR FROM line_sets t SEMI JOIN temp.wanted_jobs USING (job_id)
  UNION ALL
  SELECT job_id, 'weighing ' || t::VARCHAR FROM weighings t SEMI JOIN temp.wanted_jobs USING (job_id)
  UNION ALL
  SELECT j.job_id, 'gauge ' || t::VARCHAR FROM gauges t JOIN jobs j USING (gauge_id) SEMI JOIN temp.wanted_jobs w ON w.job_id = j.job_id
  UNION ALL
  SELECT DISTINCT k.job_id, 'cylinder ' || t::VARCHAR
  FROM cylinders t JOIN weighings k USING (cylinder_id) SEMI JOIN temp.wanted_jobs w ON w.job_id = k.job_id
  UNION ALL
  SELECT job_id, 'readings ' || [rows::VARCHAR, mixed::VARCHAR]::VARCHAR FROM temp.reading_sums
)
SELECT r.job_id, r.revision, md5(count(p.part) || ' ' || coalesce(bit_xor(md5_number(p.part)), 0)) AS state
FROM job_revisions r SEMI JOIN temp.wanted_jobs USING (job_id) LEFT JOIN parts p USING (job_id)
GROUP BY r.job_id, r.revision
