-- Notes which revision and method the new facts come from.
INSERT INTO facts_made SELECT job_id, revision, $1 FROM temp.jobs_to_measure
