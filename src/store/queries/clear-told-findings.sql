-- Findings of a policy on jobs whose matches changed.
DELETE FROM findings WHERE policy_id = $1 AND job_id IN (SELECT job_id FROM temp.jobs_to_tell)
