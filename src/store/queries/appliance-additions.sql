-- Appliances and what was put into them or taken out, those of one appliance together, in the order of time; appliances without any and additions
-- without an appliance too. Numbers first, NaN where there is none, then texts.
WITH side_by_side AS (
  SELECT (a.system_id IS NOT NULL)::DOUBLE AS n_is_known, a.full_charge_kg AS n_full_charge_kg,
    datediff('day', DATE '1970-01-01', a.installed_on)::DOUBLE AS n_installed, datediff('day', DATE '1970-01-01', a.retired_on)::DOUBLE AS n_retired,
    a.hermetic::DOUBLE AS n_hermetic, a.leak_detection::DOUBLE AS n_leak_detection,
    (s.source IS NOT NULL)::DOUBLE AS n_is_addition, datediff('day', DATE '1970-01-01', s.on_day)::DOUBLE AS n_day, s.charged_kg AS n_charged_kg,
    s.recovered_kg AS n_recovered_kg, list_position(['leak', 'install', 'retrofit', 'seasonal'], s.purpose)::DOUBLE AS n_purpose,
    s.was_empty::DOUBLE AS n_was_empty,
    coalesce(a.system_id, s.system_id) AS t_system, a.site_id AS t_site, a.refrigerant AS t_refrigerant, a.full_charge_basis AS t_basis,
    a.sector AS t_sector, a.jurisdiction AS t_jurisdiction, s.source AS t_source, s.leak_id AS t_leak
  FROM appliances a FULL JOIN temp.system_additions s ON s.system_id = a.system_id
)
SELECT coalesce(COLUMNS('^n_'), 'NaN'::DOUBLE), COLUMNS('^t_') FROM side_by_side
ORDER BY t_system NULLS LAST, n_day NULLS LAST, t_source
