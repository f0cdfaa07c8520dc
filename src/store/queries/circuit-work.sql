-- Work that leaves something behind in a circuit (commissions), or ends what was left there: circuits taken down, and visits that follow up.
CREATE OR REPLACE TEMP TABLE circuit_work AS
SELECT job_id, system_id, followup_of_job_id,
  started_at::TIMESTAMPTZ AS began_at, left(started_at, 10)::DATE AS began_on,
  greatest(coalesce(ended_at, started_at)::TIMESTAMPTZ, started_at::TIMESTAMPTZ) AS done_at,
  greatest(left(coalesce(ended_at, started_at), 10)::DATE, left(started_at, 10)::DATE) AS done_on,
  coalesce(work_type != 'decommission', true) AND (
    coalesce(work_type, 'not known') IN ('install', 'replace', 'repair', 'recharge', 'retrofit', 'not known')
    OR coalesce(opened_circuit, false) OR coalesce(weighed_in_kg, 0) > 0) AS commissions
FROM jobs
WHERE commissions OR work_type = 'decommission' OR followup_of_job_id IS NOT NULL
