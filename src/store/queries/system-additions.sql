-- What was put into systems and taken out of them, each mass once: by the job, net of its hoses and of what it recovered; by weighings that belong to no
-- job; by callbacks on whose system neither tells of anything near that day.
CREATE OR REPLACE TEMP TABLE system_additions AS
WITH weighed AS (
  SELECT job_id, first(purpose ORDER BY "at", weighing_id) FILTER (direction = 'in' AND purpose IS NOT NULL) AS purpose,
    first(leak_id ORDER BY "at", weighing_id) FILTER (leak_id IS NOT NULL) AS leak_id,
    sum(start_kg - end_kg) FILTER (direction = 'in' OR (direction = 'out' AND purpose IS DISTINCT FROM 'recovery')) AS drawn_kg,
    sum(hose_residual_kg) FILTER (direction = 'in') AS residual_kg,
    sum(end_kg - start_kg) FILTER (direction = 'out' AND purpose = 'recovery') AS recovered_kg,
    first(system_id ORDER BY "at", weighing_id) FILTER (system_id IS NOT NULL) AS system_id
  FROM weighings WHERE job_id IS NOT NULL GROUP BY job_id
), of_jobs AS (
  SELECT coalesce(j.system_id, w.system_id) AS system_id, left(j.started_at, 10)::DATE AS on_day, 'job ' || j.job_id AS source,
    coalesce(f.charged_kg, w.drawn_kg - coalesce(w.residual_kg, 0), j.weighed_in_kg - coalesce(j.hose_residual_kg, 0)) AS charged_kg,
    coalesce(j.recovered_kg, w.recovered_kg) AS recovered_kg,
    coalesce(w.purpose, CASE WHEN j.work_type IN ('install', 'replace') THEN 'install' WHEN j.work_type = 'retrofit' THEN 'retrofit' ELSE 'leak' END) AS purpose,
    w.leak_id, coalesce(j.charge_basis = 'empty', false) AS was_empty
  FROM jobs j LEFT JOIN facts f USING (job_id) LEFT JOIN weighed w USING (job_id)
  WHERE coalesce(f.charged_kg, w.drawn_kg, j.weighed_in_kg, j.recovered_kg, w.recovered_kg) IS NOT NULL
), alone AS (
  SELECT system_id, left("at", 10)::DATE AS on_day, 'weighing ' || weighing_id AS source,
    CASE WHEN direction = 'in' THEN start_kg - end_kg - coalesce(hose_residual_kg, 0) ELSE 0 END AS charged_kg,
    CASE WHEN direction = 'out' THEN end_kg - start_kg END AS recovered_kg,
    CASE purpose WHEN 'recovery' THEN 'leak' ELSE coalesce(purpose, 'leak') END AS purpose, leak_id, false AS was_empty
  FROM weighings WHERE job_id IS NULL AND start_kg IS NOT NULL AND end_kg IS NOT NULL AND direction IS NOT NULL
), weighed_in AS (
  SELECT * FROM of_jobs UNION ALL SELECT * FROM alone
), told AS (
  SELECT c.system_id, left(c.reported_at, 10)::DATE AS on_day, 'callback ' || c.callback_id AS source,
    c.refrigerant_added_kg AS charged_kg, NULL AS recovered_kg, 'leak' AS purpose, NULL AS leak_id, false AS was_empty
  FROM callbacks c
  WHERE c.refrigerant_added_kg > 0 AND NOT EXISTS (
    SELECT 1 FROM weighed_in w
    WHERE w.system_id = c.system_id AND w.on_day BETWEEN left(c.reported_at, 10)::DATE - 3 AND left(c.reported_at, 10)::DATE + 30)
)
SELECT * FROM weighed_in UNION ALL SELECT * FROM told
