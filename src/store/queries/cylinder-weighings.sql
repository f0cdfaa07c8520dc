-- Cylinders and weighings side by side, those of one cylinder together, in the order of time; cylinders without a weighing and weighings without a
-- cylinder too. Numbers first, NaN where there is none, then texts.
WITH side_by_side AS (
  SELECT (c.cylinder_id IS NOT NULL)::DOUBLE AS n_is_known, (c.kind IS NOT DISTINCT FROM 'recovery')::DOUBLE AS n_is_recovery,
    datediff('day', DATE '1970-01-01', c.acquired_on)::DOUBLE AS n_acquired, c.net_kg AS n_net_kg, c.cost AS n_cost,
    datediff('day', DATE '1970-01-01', c.closed_on)::DOUBLE AS n_closed, c.closing_kg AS n_closing_kg, c.tare_kg AS n_tare_kg,
    c.capacity_kg AS n_capacity_kg, (w.weighing_id IS NOT NULL)::DOUBLE AS n_is_weighing,
    CASE w.direction WHEN 'in' THEN 1 WHEN 'out' THEN 2 END::DOUBLE AS n_direction, w.day AS n_day, w.at_ms AS n_at_ms,
    w.start_kg AS n_start_kg, w.end_kg AS n_end_kg, w.step_kg AS n_step_kg, w.other_kg AS n_other_kg, w.is_series::DOUBLE AS n_is_series,
    w.technician::DOUBLE AS n_technician, w.crew::DOUBLE AS n_crew,
    coalesce(c.cylinder_id, w.cylinder_id) AS t_cylinder, c.refrigerant AS t_refrigerant, w.refrigerant AS t_weighed,
    w.weighing_id AS t_weighing, w.job_id AS t_job, w.site_id AS t_site
  FROM cylinders c FULL JOIN temp.account_weighings w ON w.cylinder_id = c.cylinder_id
)
SELECT coalesce(COLUMNS('^n_'), 'NaN'::DOUBLE), COLUMNS('^t_') FROM side_by_side
ORDER BY t_cylinder NULLS LAST, n_at_ms NULLS LAST, t_weighing
