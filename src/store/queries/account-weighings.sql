-- Weighings with who made them and what else tells of the same mass. A job's mass is taken once: by the series of its scale where the facts rest on that,
-- else by the figure on its record. People and crews go by number.
CREATE OR REPLACE TEMP TABLE account_weighings AS
WITH written AS (
  SELECT w.weighing_id, w.cylinder_id, w.job_id, w.refrigerant, w.direction, w.start_kg, w.end_kg,
    coalesce(w."at", j.started_at) AS at_text, w.start_kg - w.end_kg AS out_kg,
    coalesce(w.direction = 'out' AND w.purpose = 'recovery', false) AS is_recovery,
    coalesce(j.scale_step_kg, f.scale_step_kg) AS step_kg, j.technician_id, j.crew_id, coalesce(j.site_id, a.site_id) AS site_id,
    j.weighed_in_kg, j.recovered_kg, CASE WHEN f.charged_from = 'scale' THEN f.drawn_kg END AS series_kg
  FROM weighings w
  LEFT JOIN jobs j USING (job_id)
  LEFT JOIN facts f USING (job_id)
  LEFT JOIN appliances a ON a.system_id = coalesce(w.system_id, j.system_id)
), by_job AS (
  SELECT job_id, is_recovery, sum(out_kg) AS job_out_kg, count(*) AS weighings FROM written WHERE job_id IS NOT NULL GROUP BY ALL
)
SELECT w.weighing_id, w.cylinder_id, w.job_id, w.refrigerant, w.direction, w.start_kg, w.end_kg, w.step_kg, w.site_id,
  datediff('day', DATE '1970-01-01', left(w.at_text, 10)::DATE)::DOUBLE AS day, epoch_ms(w.at_text::TIMESTAMPTZ)::DOUBLE AS at_ms,
  t.number AS technician, c.number AS crew,
  CASE WHEN w.is_recovery THEN CASE WHEN b.weighings = 1 THEN -w.recovered_kg END
    ELSE coalesce(w.series_kg, w.weighed_in_kg) - (b.job_out_kg - w.out_kg) END AS other_kg,
  NOT w.is_recovery AND w.series_kg IS NOT NULL AS is_series
FROM written w
LEFT JOIN by_job b ON b.job_id = w.job_id AND b.is_recovery = w.is_recovery
LEFT JOIN temp.account_technicians t ON t.id = w.technician_id
LEFT JOIN temp.account_crews c ON c.id = w.crew_id
