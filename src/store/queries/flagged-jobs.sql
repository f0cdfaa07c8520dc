-- Flagged jobs of some days, worst first: by the most pressing of what failed and asks for a visit, then by how much failed. `rank` is that of the
-- first of the checks in $4, one more than there are of them for any other, and null where nothing failed that asks for a visit.
SELECT o.job_id, f.rowid AS place, r.rank
FROM temp.job_outcomes o JOIN temp.fleet_jobs f USING (job_id) JOIN (
  SELECT job_id, count(*) FILTER (outcome = 'fail') AS fails, count(*) FILTER (outcome = 'suspect') AS suspects,
    min(coalesce(nullif(list_position(string_split($4, ','), check_id), 0), len(string_split($4, ',')) + 1))
      FILTER (outcome = 'fail' AND NOT list_contains(string_split($5, ','), check_id)) AS rank
  FROM findings WHERE policy_id = $1 AND outcome IN ('suspect', 'fail')
    AND job_id IN (SELECT job_id FROM temp.job_outcomes WHERE flagged AND day BETWEEN $2 AND $3)
  GROUP BY job_id) r USING (job_id)
ORDER BY r.rank NULLS LAST, r.fails DESC, r.suspects DESC, o.started_at DESC, o.job_id
