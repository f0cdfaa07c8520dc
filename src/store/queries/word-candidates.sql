-- Curves that share words with those from number $1 on to before $2, and by how many rows they are then apart. A word that very
-- many curves have leads to the first of them only, so that a curve that stands a thousand times costs no thousand squared.
CREATE OR REPLACE TEMP TABLE word_candidates AS
WITH latest AS (FROM curve_words WHERE curve_id >= $1 AND curve_id < $2),
earlier AS (
  FROM curve_words SEMI JOIN latest USING (word)
  WHERE curve_id < $2
  QUALIFY row_number() OVER (PARTITION BY word ORDER BY curve_id, at_row) <= 20
)
SELECT earlier.curve_id AS one, latest.curve_id AS two, latest.at_row - earlier.at_row AS shift, count(*) AS words
FROM latest JOIN earlier USING (word)
WHERE earlier.curve_id < latest.curve_id
GROUP BY ALL
