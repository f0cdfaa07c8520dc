-- Appliances and what was put into them or taken out, those of one appliance together, in the order of time; appliances without any and additions
-- without an appliance too.
SELECT coalesce(a.system_id, s.system_id) AS system_id, a.system_id IS NOT NULL AS is_known, a.site_id, a.refrigerant, a.full_charge_kg,
  a.full_charge_basis, a.sector, a.jurisdiction, datediff('day', DATE '1970-01-01', a.installed_on)::INTEGER,
  datediff('day', DATE '1970-01-01', a.retired_on)::INTEGER, a.hermetic, a.leak_detection,
  s.source, datediff('day', DATE '1970-01-01', s.on_day)::INTEGER, s.charged_kg, s.recovered_kg, s.purpose, s.leak_id, s.was_empty
FROM appliances a FULL JOIN temp.system_additions s ON s.system_id = a.system_id
ORDER BY 1 NULLS LAST, s.on_day NULLS LAST, s.source
