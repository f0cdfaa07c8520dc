-- Findings of a policy that are about to be made anew.
DELETE FROM findings WHERE policy_id = $1 AND job_id IN (SELECT job_id FROM temp.all_to_judge)
