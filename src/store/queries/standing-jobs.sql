-- Jobs that are judged by the facts as they stand: those with new matches, and those whose findings alone are due.
CREATE OR REPLACE TEMP TABLE standing_jobs AS
SELECT job_id FROM temp.jobs_to_judge UNION SELECT job_id FROM temp.jobs_to_tell SEMI JOIN facts_made USING (job_id) ORDER BY job_id;
DELETE FROM findings_made WHERE job_id IN (SELECT job_id FROM temp.jobs_to_tell)
