-- Notes which revision, method and content of the policy the new findings come from.
INSERT OR REPLACE INTO findings_made SELECT job_id, $1, revision, method, $2 FROM temp.jobs_to_judge
