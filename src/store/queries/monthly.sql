-- Per month and crew: jobs that could be judged, and those flagged.
SELECT month, coalesce(crew_id, 'no crew') AS crew_id, count(*) FILTER (judged) AS judged, count(*) FILTER (flagged) AS flagged
FROM temp.job_outcomes WHERE month IS NOT NULL GROUP BY ALL HAVING count(*) FILTER (judged) > 0 ORDER BY ALL
