-- Notes which revision, method and content of the policy the new findings come from.
INSERT INTO findings_made
SELECT job_id, $1, revision, method, $2 FROM facts_made
WHERE job_id IN (SELECT job_id FROM temp.all_to_judge UNION ALL SELECT job_id FROM temp.jobs_to_tell)
