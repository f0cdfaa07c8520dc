-- Flagged jobs of some days, worst first.
SELECT o.job_id FROM temp.job_outcomes o JOIN findings f ON f.job_id = o.job_id AND f.policy_id = $1
WHERE o.flagged AND o.day BETWEEN $2 AND $3
GROUP BY o.job_id, o.started_at
ORDER BY count(*) FILTER (f.outcome = 'fail') DESC, count(*) FILTER (f.outcome = 'suspect') DESC, o.started_at DESC, o.job_id LIMIT $4
