-- What jobs should have put in beside what they did, by technician, month and refrigerant.
SELECT j.technician_id, left(j.started_at, 7) AS month, j.refrigerant, count(*)::INTEGER AS jobs,
  sum(f.charge_wanted_kg) AS wanted_kg, sum(f.charged_kg) AS charged_kg, sum(f.charge_deviation_kg) AS over_kg,
  sum(((f.charge_deviation_high_kg - f.charge_deviation_low_kg) / 3.92) ** 2) AS variance,
  count(*) FILTER (f.charge_deviation_low_kg > 0)::INTEGER AS surely_over,
  coalesce(sum(f.charge_deviation_kg) FILTER (f.charge_deviation_low_kg > 0), 0) AS surely_over_kg,
  count(*) FILTER (f.charge_deviation_high_kg < 0)::INTEGER AS surely_under,
  coalesce(sum(f.charge_deviation_kg) FILTER (f.charge_deviation_high_kg < 0), 0) AS surely_under_kg
FROM facts f JOIN jobs j USING (job_id)
WHERE f.charge_deviation_kg IS NOT NULL AND left(j.started_at, 10)::DATE BETWEEN $1::DATE AND $2::DATE
GROUP BY ALL ORDER BY ALL
