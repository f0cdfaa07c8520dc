import type { Store } from './store.ts';

/**
 * When the logs of jobs began [s since 1970], for jobs whose logs told points in time: what `elapsed_s` counts from, so that
 * a later export of the same log counts from the same moment.
 */
export class StoredLogStarts {
  readonly #known = new Map<string, number>();
  #unsaved = new Map<string, number>();

  static async read(store: Store): Promise<StoredLogStarts> {
    const starts = new StoredLogStarts();
    for (const { job_id, start_s } of await store.rows<{ job_id: string; start_s: number }>('FROM log_starts'))
      starts.#known.set(job_id, start_s);
    return starts;
  }

  get(jobId: string): number | undefined {
    return this.#known.get(jobId);
  }

  set(jobId: string, startS: number): void {
    this.#known.set(jobId, startS);
    this.#unsaved.set(jobId, startS);
  }

  /** Writes what is new, within the caller's transaction. */
  async save(store: Store): Promise<void> {
    if (this.#unsaved.size === 0) return;
    await store.fillRows('new_starts', { job_id: 'VARCHAR', start_s: 'DOUBLE' }, [...this.#unsaved]);
    await store.run('INSERT OR REPLACE INTO log_starts FROM temp.new_starts');
    this.#unsaved = new Map();
  }
}
