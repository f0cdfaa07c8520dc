import type { LogOrigin, LogStarts } from '../sources/log-clock.ts';
import type { PlainRow, Store } from './store.ts';

interface Start {
  readonly jobId: string;
  readonly origin: LogOrigin;
  readonly startS: number;
}

/**
 * When the logs of jobs began, for jobs whose logs told points in time or times of day: what `elapsed_s` counts from, so that a
 * later export of the same log counts from the same moment.
 */
export class StoredLogStarts implements LogStarts {
  readonly #known = new Map<string, Start>();
  #unsaved: [jobId: string, origin: LogOrigin, startS: number][] = [];

  static async read(store: Store): Promise<StoredLogStarts> {
    const starts = new StoredLogStarts();
    for (const { jobId, origin, startS } of await store.rows<Start & PlainRow>(
      'SELECT job_id AS "jobId", origin, start_s AS "startS" FROM log_starts',
    ))
      starts.#known.set(`${origin} ${jobId}`, { jobId, origin, startS });
    return starts;
  }

  get(jobId: string, origin: LogOrigin): number | undefined {
    return this.#known.get(`${origin} ${jobId}`)?.startS;
  }

  set(jobId: string, origin: LogOrigin, startS: number): void {
    this.#known.set(`${origin} ${jobId}`, { jobId, origin, startS });
    this.#unsaved.push([jobId, origin, startS]);
  }

  /** Writes what is new, within the caller's transaction. */
  async save(store: Store): Promise<void> {
    if (this.#unsaved.length === 0) return;
    await store.fillRows('new_starts', { job_id: 'VARCHAR', origin: 'VARCHAR', start_s: 'DOUBLE' }, this.#unsaved);
    await store.run('INSERT OR REPLACE INTO log_starts FROM temp.new_starts');
    this.#unsaved = [];
  }
}

/** The beginnings that one file tells, kept only where the file is. */
export class NewLogStarts implements LogStarts {
  readonly #stored: StoredLogStarts;
  readonly #own = new Map<string, Start>();

  constructor(stored: StoredLogStarts) {
    this.#stored = stored;
  }

  get(jobId: string, origin: LogOrigin): number | undefined {
    return this.#own.get(`${origin} ${jobId}`)?.startS ?? this.#stored.get(jobId, origin);
  }

  set(jobId: string, origin: LogOrigin, startS: number): void {
    this.#own.set(`${origin} ${jobId}`, { jobId, origin, startS });
  }

  keep(): void {
    for (const { jobId, origin, startS } of this.#own.values()) this.#stored.set(jobId, origin, startS);
  }
}
