-- Jobs whose matches changed with what was measured now; their facts and findings under every policy have to say so.
CREATE OR REPLACE TEMP TABLE jobs_to_tell AS
SELECT DISTINCT job_id FROM (
  SELECT job_id FROM temp.unmatched_jobs
  UNION ALL
  SELECT unnest([job_id, other_job_id]) FROM curve_matches
  WHERE job_id IN (SELECT job_id FROM temp.jobs_to_measure) OR other_job_id IN (SELECT job_id FROM temp.jobs_to_measure)
)
