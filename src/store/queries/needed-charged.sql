-- What jobs should have put in beside what they did, by technician, month and refrigerant. Jobs of which half the 95 % interval is wider than $3 are
-- only counted: one figure mistyped by a hundredweight would hide all others.
WITH told AS (
  SELECT j.technician_id, left(j.started_at, 7) AS month, j.refrigerant, f.*,
    (f.charge_deviation_high_kg - f.charge_deviation_low_kg) / 2 AS half_width_kg, half_width_kg <= $3 AS is_sure
  FROM facts f JOIN jobs j USING (job_id)
  WHERE f.charge_deviation_kg IS NOT NULL AND left(j.started_at, 10)::DATE BETWEEN $1::DATE AND $2::DATE
)
SELECT technician_id, month, refrigerant, count(*) FILTER (is_sure)::INTEGER AS jobs, count(*) FILTER (NOT is_sure)::INTEGER AS unsure,
  coalesce(sum(charge_wanted_kg) FILTER (is_sure), 0) AS wanted_kg, coalesce(sum(charged_kg) FILTER (is_sure), 0) AS charged_kg,
  coalesce(sum(charge_deviation_kg) FILTER (is_sure), 0) AS over_kg, coalesce(sum((half_width_kg / 1.96) ** 2) FILTER (is_sure), 0) AS variance,
  count(*) FILTER (is_sure AND charge_deviation_low_kg > 0)::INTEGER AS surely_over,
  coalesce(sum(charge_deviation_kg) FILTER (is_sure AND charge_deviation_low_kg > 0), 0) AS surely_over_kg,
  count(*) FILTER (is_sure AND charge_deviation_high_kg < 0)::INTEGER AS surely_under,
  coalesce(sum(charge_deviation_kg) FILTER (is_sure AND charge_deviation_high_kg < 0), 0) AS surely_under_kg
FROM told GROUP BY ALL ORDER BY ALL
