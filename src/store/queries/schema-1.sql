-- What the store keeps beside the tables of the interchange bundle. The bundle's own tables are made from src/records.
CREATE TABLE store_version (version INTEGER NOT NULL);

-- One row per job that was ever heard of; the revision grows whenever anything that facts rest on changes.
CREATE TABLE job_revisions (job_id VARCHAR PRIMARY KEY, revision INTEGER NOT NULL);

CREATE SEQUENCE segment_numbers;

-- A Parquet file of readings in (job, time) order.
CREATE TABLE segments (segment_id BIGINT PRIMARY KEY, file VARCHAR NOT NULL, rows BIGINT NOT NULL, columns VARCHAR[] NOT NULL);

-- Which rows of which segment are a job's readings; a job stands in one segment only.
CREATE TABLE segment_jobs (
  job_id VARCHAR PRIMARY KEY,
  segment_id BIGINT NOT NULL,
  first_row BIGINT NOT NULL,
  rows BIGINT NOT NULL,
  gauges INTEGER NOT NULL,
  marks BIGINT NOT NULL
);

-- Rows that lie in a segment and no longer count.
CREATE TABLE superseded_jobs (segment_id BIGINT NOT NULL, job_id VARCHAR NOT NULL);

-- Which revision and method a job's facts come from, and which revision, method and policy its findings.
CREATE TABLE facts_made (job_id VARCHAR NOT NULL, revision INTEGER NOT NULL, method INTEGER NOT NULL);
CREATE TABLE policies (policy_id VARCHAR PRIMARY KEY, content VARCHAR NOT NULL, judged_order BIGINT NOT NULL);
CREATE TABLE findings_made (
  job_id VARCHAR NOT NULL,
  policy_id VARCHAR NOT NULL,
  revision INTEGER NOT NULL,
  method INTEGER NOT NULL,
  policy_digest VARCHAR NOT NULL
);
