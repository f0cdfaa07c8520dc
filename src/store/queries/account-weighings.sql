-- Every cylinder with its weighings in the order of time, and what else tells of the same mass. A job's mass is taken once: by the series of its scale
-- where the facts rest on that, else by the figure on its record.
CREATE OR REPLACE TEMP TABLE account_weighings AS
WITH written AS (
  SELECT w.weighing_id, w.cylinder_id, w.job_id, w.refrigerant, w.direction, w.start_kg, w.end_kg, w.purpose,
    coalesce(w.system_id, j.system_id) AS system_id, coalesce(w.at, j.started_at) AS at,
    w.start_kg - w.end_kg AS out_kg,
    coalesce(w.direction = 'out' AND w.purpose = 'recovery', false) AS is_recovery,
    j.scale_step_kg, j.technician_id, j.crew_id, coalesce(j.site_id, a.site_id) AS site_id,
    j.weighed_in_kg, j.recovered_kg,
    CASE WHEN f.charged_from = 'scale' THEN f.drawn_kg END AS series_kg, f.scale_step_kg AS shown_step_kg
  FROM weighings w
  LEFT JOIN jobs j USING (job_id)
  LEFT JOIN facts f USING (job_id)
  LEFT JOIN appliances a ON a.system_id = coalesce(w.system_id, j.system_id)
), with_job AS (
  SELECT *, sum(out_kg) OVER of_job AS job_out_kg, count(*) OVER of_job AS job_weighings
  FROM written
  WINDOW of_job AS (PARTITION BY job_id, is_recovery)
)
SELECT w.* EXCLUDE (series_kg, weighed_in_kg, recovered_kg, job_out_kg, job_weighings),
  CASE WHEN w.job_id IS NULL THEN NULL
    WHEN w.is_recovery THEN CASE WHEN w.job_weighings = 1 THEN -w.recovered_kg END
    ELSE coalesce(w.series_kg, w.weighed_in_kg) - (w.job_out_kg - w.out_kg) END AS other_kg,
  CASE WHEN NOT w.is_recovery AND w.series_kg IS NOT NULL THEN 'series' ELSE 'record' END AS other_from
FROM with_job w
