-- Prints of the curves of jobs that are about to be measured anew, and what they matched; the other jobs of these matches have to
-- hear of it.
CREATE OR REPLACE TEMP TABLE unmatched_jobs AS
SELECT job_id FROM curve_matches WHERE other_job_id IN (SELECT job_id FROM temp.jobs_to_measure)
UNION
SELECT other_job_id FROM curve_matches WHERE job_id IN (SELECT job_id FROM temp.jobs_to_measure);
DELETE FROM curve_matches
WHERE job_id IN (SELECT job_id FROM temp.jobs_to_measure) OR other_job_id IN (SELECT job_id FROM temp.jobs_to_measure);
CREATE OR REPLACE TEMP TABLE old_curves AS
SELECT curve_id FROM curves WHERE job_id IN (SELECT job_id FROM temp.jobs_to_measure);
DELETE FROM curve_words WHERE curve_id IN (SELECT curve_id FROM temp.old_curves);
DELETE FROM curve_landmarks WHERE curve_id IN (SELECT curve_id FROM temp.old_curves);
DELETE FROM curves WHERE curve_id IN (SELECT curve_id FROM temp.old_curves)
