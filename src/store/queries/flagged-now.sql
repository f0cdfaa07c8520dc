-- The most pressing flagged jobs of those judged now: what failed before what is suspect, then by the most pressing of the checks in $2, then by how
-- much was found; beside each how many jobs are flagged in all, and how many of them failed.
SELECT job_id, count(*) OVER () AS flagged, count(*) FILTER (fails > 0) OVER () AS failed
FROM (
  SELECT job_id, count(*) FILTER (outcome = 'fail') AS fails, count(*) FILTER (outcome = 'suspect') AS suspects,
    min(nullif(list_position(string_split($2, ','), check_id), 0)) FILTER (outcome = 'fail') AS rank
  FROM findings SEMI JOIN temp.all_to_judge USING (job_id)
  WHERE policy_id = $1 AND outcome IN ('suspect', 'fail') GROUP BY job_id)
ORDER BY fails = 0, rank NULLS LAST, fails DESC, suspects DESC, job_id LIMIT $3
