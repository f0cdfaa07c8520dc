-- Notes which revision and method the new facts come from.
INSERT OR REPLACE INTO facts_made SELECT job_id, revision, $1 FROM temp.jobs_to_measure
