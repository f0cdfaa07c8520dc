-- Jobs whose revision or method is newer than their facts; in the order in which their readings lie.
CREATE OR REPLACE TEMP TABLE jobs_to_measure AS
SELECT r.job_id, r.revision, s.segment_id, s.first_row
FROM job_revisions r
LEFT JOIN facts_made f USING (job_id)
LEFT JOIN segment_jobs s USING (job_id)
WHERE f.job_id IS NULL OR f.revision <> r.revision OR f.method <> $1
ORDER BY s.segment_id NULLS LAST, s.first_row, r.job_id
