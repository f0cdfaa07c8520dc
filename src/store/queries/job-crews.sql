-- The crew of each job: the one on its record, else the one that the technician was in on that day.
CREATE OR REPLACE TEMP VIEW job_crews AS
SELECT j.job_id, coalesce(j.crew_id, (
  SELECT max(m.crew_id) FROM memberships m
  WHERE m.technician_id = j.technician_id AND m.from_on::VARCHAR <= left(j.started_at, 10)
    AND (m.to_on IS NULL OR m.to_on::VARCHAR >= left(j.started_at, 10)))) AS crew_id
FROM jobs j
