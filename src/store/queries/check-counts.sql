-- Per check: how many jobs had which outcome.
SELECT check_id, outcome, count(*) AS n FROM findings WHERE policy_id = $1 GROUP BY ALL ORDER BY ALL
