-- Per check: in how many jobs of some days it was judged, and in how many it flagged.
SELECT f.check_id, count(*) FILTER (f.outcome IN ('pass', 'suspect', 'fail')) AS judged,
  count(*) FILTER (f.outcome IN ('suspect', 'fail')) AS found
FROM findings f SEMI JOIN (SELECT job_id FROM temp.job_outcomes WHERE day BETWEEN $2 AND $3) o USING (job_id)
WHERE f.policy_id = $1 GROUP BY ALL
