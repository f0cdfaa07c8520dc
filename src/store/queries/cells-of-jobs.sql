-- The cell of each job of the fleet, in the order of their places.
SELECT coalesce(x.cell, -1)::DOUBLE AS cell
FROM temp.fleet_jobs f LEFT JOIN (SELECT job_id, month, crew_id, technician_id FROM temp.job_outcomes) o USING (job_id)
  LEFT JOIN (SELECT job_id, refrigerant FROM jobs) j USING (job_id)
  LEFT JOIN temp.kept_crews c ON c.id = o.crew_id LEFT JOIN temp.kept_technicians t ON t.id = o.technician_id
  LEFT JOIN temp.job_cells x ON x.month = coalesce(o.month, '') AND x.crew = coalesce(c.label, '')
    AND x.technician = coalesce(t.label, '') AND x.refrigerant = coalesce(j.refrigerant, '')
ORDER BY f.rowid
