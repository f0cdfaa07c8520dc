-- Every match as it looks from the job in `temp.jobs_to_tell`; of several the one that shares most readings into its facts. Taken from 0, no shift is
-- 0: of -0 the engine keeps the sign or not, by what lay there before.
CREATE OR REPLACE TEMP TABLE told_matches AS
SELECT job_id, other_job_id, column_name, matched_readings, share_ratio, from_s, to_s, shift_s, scale_ratio, scatter_ratio
FROM curve_matches SEMI JOIN temp.jobs_to_tell USING (job_id)
UNION ALL
SELECT other_job_id, job_id, other_column_name, matched_readings, share_ratio, from_s + shift_s, to_s + shift_s, 0 - shift_s,
  1 / scale_ratio, scatter_ratio
FROM curve_matches WHERE other_job_id IN (SELECT job_id FROM temp.jobs_to_tell);
CREATE OR REPLACE TEMP TABLE best_matches AS
SELECT *, count(DISTINCT other_job_id) OVER (PARTITION BY job_id) AS jobs FROM temp.told_matches
QUALIFY row_number() OVER (PARTITION BY job_id ORDER BY matched_readings DESC, other_job_id, column_name, from_s) = 1;
UPDATE facts SET
  match_jobs = b.jobs, match_job_id = b.other_job_id, match_column = b.column_name, match_readings = b.matched_readings,
  match_share_ratio = b.share_ratio, match_start_s = b.from_s, match_s = b.to_s - b.from_s, match_shift_s = b.shift_s,
  match_scale_ratio = b.scale_ratio, match_scatter_ratio = b.scatter_ratio
FROM temp.jobs_to_tell t LEFT JOIN temp.best_matches b USING (job_id)
WHERE facts.job_id = t.job_id
