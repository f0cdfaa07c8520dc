import { readColumns } from './read-columns.ts';
import { query } from './sql.ts';
import type { Store } from './store.ts';

/** Judged jobs of one month, crew, technician and refrigerant; a word is empty where none is on record or it is not kept apart. */
export interface JobCell {
  /** YYYY-MM */
  readonly month: string;
  readonly crew: string;
  readonly technician: string;
  readonly refrigerant: string;
  readonly jobs: number;
  /** Of them, those that at least one check could judge, and those of these with a suspect or fail finding. */
  readonly judged: number;
  readonly flagged: number;
}

/** Who is kept apart in cells, by id, and what each is called; no two are called the same. */
export interface KeptApart {
  readonly crews: ReadonlyMap<string, string>;
  readonly technicians: ReadonlyMap<string, string>;
}

/**
 * Counts judged jobs by month, crew, technician and refrigerant; `readFleetJobs` and `job-outcomes` come first.
 *
 * Leaves the temporary tables `kept_crews`, `kept_technicians` and `job_cells`.
 */
export async function readJobCells(store: Store, { crews, technicians }: KeptApart): Promise<JobCell[]> {
  const columns = { id: 'VARCHAR', label: 'VARCHAR' } as const;
  await store.fillRows('kept_crews', columns, [...crews]);
  await store.fillRows('kept_technicians', columns, [...technicians]);
  await store.run(query('job-cells'));
  return store.rows<JobCell & Record<string, unknown>>('SELECT * EXCLUDE (cell) FROM temp.job_cells ORDER BY cell');
}

/**
 * The place of each job's cell among those of `readJobCells`, by the job's place in the fleet; −1 where it has none. `readFleetJobs` and
 * `readJobCells` come first.
 *
 * @param count how many jobs the fleet has
 */
export async function readCellsOfJobs(store: Store, count: number): Promise<Int32Array> {
  const cells = new Int32Array(count);
  let filled = 0;
  for await (const { numbers, count: rows } of readColumns(await store.connection.stream(query('cells-of-jobs')), 1)) {
    cells.set(numbers[0].subarray(0, rows), filled);
    filled += rows;
  }
  return cells;
}
