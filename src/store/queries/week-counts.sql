-- Jobs of a week and of the four weeks before it.
SELECT day >= $1 AS is_week, count(*) AS jobs, count(*) FILTER (judged) AS judged, count(*) FILTER (flagged) AS flagged
FROM temp.job_outcomes WHERE day BETWEEN (CAST($1 AS DATE) - 28)::VARCHAR AND $2 GROUP BY ALL
