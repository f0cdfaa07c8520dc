-- By what the pressure curves of jobs are found again in others. A curve is one gauge's column of a job's readings; its number
-- grows with every curve that is taken in. Bits: a CurveBits, packed.
CREATE TABLE IF NOT EXISTS curves (
  curve_id BIGINT NOT NULL,
  job_id VARCHAR NOT NULL,
  column_name VARCHAR NOT NULL,
  gauge VARCHAR,
  bits BLOB NOT NULL
);

-- Which words a curve has, and at which of its rows.
CREATE TABLE IF NOT EXISTS curve_words (curve_id BIGINT NOT NULL, word BIGINT NOT NULL, at_row INTEGER NOT NULL);

-- Which landmarks a curve has; around: sixteen-bit numbers.
CREATE TABLE IF NOT EXISTS curve_landmarks (curve_id BIGINT NOT NULL, cell BIGINT NOT NULL, at_row INTEGER NOT NULL, around BLOB NOT NULL);
