-- What each file feeds of a job's readings: per gauge the columns with any value and the stretch of time [s], ends included.
CREATE TABLE IF NOT EXISTS fed_readings (
  job_id VARCHAR NOT NULL,
  file VARCHAR NOT NULL,
  map_name VARCHAR NOT NULL,
  sha256 VARCHAR NOT NULL,
  gauge VARCHAR,
  columns VARCHAR[] NOT NULL,
  from_s DOUBLE NOT NULL,
  to_s DOUBLE NOT NULL
)
