-- How far each job's rise ended from its own limit; of more than are wanted some by chance, half of them flagged where there are so many. Each
-- stands for `weight` jobs of its kind.
WITH held AS (
  SELECT f.job_id, f.outcome, f.outcome = 'pass' AS passed, (f.evidence->>'$.limit_pa')::DOUBLE AS limit_pa,
    CASE WHEN f.evidence->>'$.limit_kind' = 'level' THEN (f.evidence->>'$.judged_pa')::DOUBLE
      ELSE (f.evidence->>'$.judged_rise_pa')::DOUBLE END AS judged_pa
  FROM findings f SEMI JOIN jobs USING (job_id)
  WHERE f.check_id = 'rise-over-limit' AND f.policy_id = $1 AND f.outcome IN ('pass', 'suspect', 'fail')
), told AS (
  SELECT job_id, outcome, judged_pa / limit_pa AS ratio, count(*) OVER () AS of, count(*) FILTER (NOT passed) OVER () AS flagged,
    count(*) OVER (PARTITION BY passed) AS alike, row_number() OVER (PARTITION BY passed ORDER BY hash(job_id), job_id) AS place
  FROM held WHERE limit_pa > 0 AND judged_pa > 0
), wanted AS (
  SELECT *, least(alike, greatest($2 // 2, $2 - (of - alike))) AS kept FROM told
)
SELECT d.job_id, d.outcome, d.ratio, d.alike / d.kept AS weight, d.of, d.flagged, left(j.started_at, 10) AS day, left(j.started_at, 7) AS month,
  coalesce(c.label, '') AS crew, coalesce(t.label, '') AS technician, coalesce(j.refrigerant, '') AS refrigerant
FROM wanted d JOIN jobs j USING (job_id) LEFT JOIN temp.job_crews jc USING (job_id)
  LEFT JOIN temp.kept_crews c ON c.id = jc.crew_id LEFT JOIN temp.kept_technicians t ON t.id = j.technician_id
WHERE place <= kept
ORDER BY day, d.job_id
