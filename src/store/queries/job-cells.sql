-- Judged jobs per month, crew, technician and refrigerant; who is not among those kept apart stands under none.
CREATE OR REPLACE TEMP TABLE job_cells AS
SELECT row_number() OVER (ORDER BY month, crew, technician, refrigerant) - 1 AS cell, * FROM (
  SELECT coalesce(o.month, '') AS month, coalesce(c.label, '') AS crew, coalesce(t.label, '') AS technician,
    coalesce(j.refrigerant, '') AS refrigerant,
    count(*) AS jobs, count(*) FILTER (o.judged) AS judged, count(*) FILTER (o.flagged) AS flagged
  FROM temp.job_outcomes o LEFT JOIN (SELECT job_id, refrigerant FROM jobs) j USING (job_id)
    LEFT JOIN temp.kept_crews c ON c.id = o.crew_id LEFT JOIN temp.kept_technicians t ON t.id = o.technician_id
  GROUP BY ALL)
