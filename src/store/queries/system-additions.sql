-- What was put into systems and taken out of them, each mass once: by the job, net of its hoses and of what it recovered; by weighings that belong to no
-- job on record; by callbacks on whose system neither tells of anything near that day.
CREATE OR REPLACE TEMP TABLE system_additions AS
WITH ordered AS (
  SELECT *, nullif(purpose, 'recovery') AS reason,
    -- What comes out before anything goes in was in there before: it is recovered. What comes out afterwards trims the charge.
    direction = 'out' AND (purpose IS NOT DISTINCT FROM 'recovery'
      OR coalesce("at"::TIMESTAMPTZ < min("at"::TIMESTAMPTZ) FILTER (direction = 'in') OVER (PARTITION BY job_id), false)) AS is_recovered
  FROM weighings WHERE job_id IS NOT NULL
), weighed AS (
  SELECT job_id, coalesce(first(reason ORDER BY "at", weighing_id) FILTER (direction = 'in' AND reason IS NOT NULL),
      first(reason ORDER BY "at", weighing_id) FILTER (reason IS NOT NULL)) AS purpose,
    first(leak_id ORDER BY "at", weighing_id) FILTER (leak_id IS NOT NULL) AS leak_id,
    sum(start_kg - end_kg) FILTER (direction IS NOT NULL AND NOT is_recovered) AS drawn_kg,
    sum(hose_residual_kg) FILTER (direction = 'in') AS residual_kg,
    sum(end_kg - start_kg) FILTER (is_recovered) AS recovered_kg,
    first(system_id ORDER BY "at", weighing_id) FILTER (system_id IS NOT NULL) AS system_id
  FROM ordered GROUP BY job_id
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
    coalesce(nullif(purpose, 'recovery'), 'leak') AS purpose, leak_id, false AS was_empty
  FROM weighings
  WHERE (job_id IS NULL OR NOT EXISTS (SELECT 1 FROM jobs j WHERE j.job_id = weighings.job_id))
    AND start_kg IS NOT NULL AND end_kg IS NOT NULL AND direction IS NOT NULL
), weighed_in AS (
  SELECT * FROM of_jobs UNION ALL SELECT * FROM alone
), told AS (
  SELECT c.system_id, left(c.reported_at, 10)::DATE AS on_day, 'callback ' || c.callback_id AS source,
    c.refrigerant_added_kg AS charged_kg, NULL AS recovered_kg, 'leak' AS purpose, NULL AS leak_id, false AS was_empty
  FROM callbacks c
  WHERE c.refrigerant_added_kg > 0 AND NOT EXISTS (
    SELECT 1 FROM weighed_in w
    WHERE w.system_id = c.system_id AND w.charged_kg > 0 AND w.on_day BETWEEN left(c.reported_at, 10)::DATE - 3 AND left(c.reported_at, 10)::DATE + 30)
)
SELECT * FROM weighed_in UNION ALL SELECT * FROM told
