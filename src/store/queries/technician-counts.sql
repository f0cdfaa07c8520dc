-- Per technician: jobs that could be judged, those flagged, those that no check could judge, and the crew of the last job.
SELECT technician_id, max_by(crew_id, started_at) AS crew_id, count(*) FILTER (judged) AS judged,
  count(*) FILTER (flagged) AS flagged, count(*) FILTER (NOT judged) AS not_judged
FROM temp.job_outcomes WHERE technician_id IS NOT NULL GROUP BY technician_id ORDER BY technician_id
