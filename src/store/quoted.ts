/** A text as SQL literal. */
export function literal(text: string): string {
  return `'${text.replaceAll("'", "''")}'`;
}

/** A name as SQL identifier. */
export function identifier(name: string): string {
  return `"${name.replaceAll('"', '""')}"`;
}

/** The Parquet files of these paths as a relation: just these, whatever is in their names, and no column but their own. */
export function parquetFiles(paths: string | readonly string[], ...options: string[]): string {
  const files = [paths].flat().map((path) => literal(plainPath(path)));
  return `read_parquet(${[`[${files.join(', ')}]`, 'hive_partitioning = false', ...options].join(', ')})`;
}

/**
 * A path in which nothing stands for other paths. The engine takes a name such as *.csv for all files that it matches, and
 * a folder such as job_id=7 for a column.
 */
export function plainPath(path: string): string {
  return path.replaceAll(/[*?[]/g, '[$&]');
}
