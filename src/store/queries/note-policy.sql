-- The policy judged last has the highest number.
INSERT OR REPLACE INTO policies SELECT $1, $2, coalesce((SELECT max(judged_order) FROM policies), 0) + 1
