-- Every job that gets findings: those measured anew and those whose facts stand.
CREATE OR REPLACE TEMP TABLE all_to_judge AS SELECT job_id FROM temp.jobs_to_measure UNION ALL SELECT job_id FROM temp.jobs_to_judge
