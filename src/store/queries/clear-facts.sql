-- Facts that are about to be made anew, and the note of them.
DELETE FROM facts WHERE job_id IN (SELECT job_id FROM temp.jobs_to_measure);
DELETE FROM facts_made WHERE job_id IN (SELECT job_id FROM temp.jobs_to_measure)
