-- Jobs whose facts stand, but whose findings under this policy rest on other facts or on another content of the policy.
CREATE OR REPLACE TEMP TABLE jobs_to_judge AS
SELECT f.job_id
FROM facts_made f
ANTI JOIN temp.jobs_to_measure USING (job_id)
LEFT JOIN findings_made m ON m.job_id = f.job_id AND m.policy_id = $1
WHERE m.job_id IS NULL OR m.revision <> f.revision OR m.method <> f.method OR m.policy_digest <> $2
ORDER BY f.job_id
