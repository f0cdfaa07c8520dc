-- Cylinders and weighings side by side, those of one cylinder together, in the order of time; cylinders without a weighing and weighings without a
-- cylinder too.
SELECT coalesce(c.cylinder_id, w.cylinder_id) AS cylinder_id, c.cylinder_id IS NOT NULL AS is_known,
  c.refrigerant, c.kind, datediff('day', DATE '1970-01-01', c.acquired_on)::INTEGER, c.net_kg, c.cost,
  datediff('day', DATE '1970-01-01', c.closed_on)::INTEGER, c.closing_kg, c.tare_kg, c.capacity_kg,
  w.weighing_id, w.refrigerant, w.direction, datediff('day', DATE '1970-01-01', left(w.at, 10)::DATE)::INTEGER,
  epoch_ms(w.at::TIMESTAMPTZ)::DOUBLE, w.start_kg, w.end_kg, coalesce(w.scale_step_kg, w.shown_step_kg),
  w.other_kg, w.other_from, w.job_id, w.system_id, w.site_id, w.technician_id, w.crew_id
FROM cylinders c FULL JOIN temp.account_weighings w ON w.cylinder_id = c.cylinder_id
ORDER BY 1 NULLS LAST, w.at::TIMESTAMPTZ NULLS LAST, w.weighing_id
