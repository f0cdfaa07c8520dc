import type { TimeOrigin } from './map-time.ts';

const dayS = 86_400;

/** What the beginning of a log is told in: seconds since 1970, or since midnight. */
export type LogOrigin = Exclude<TimeOrigin, 'duration'>;

/** When the log of a job began [s since its origin], for logs that tell points in time or times of day. */
export interface LogStarts {
  get(jobId: string, origin: LogOrigin): number | undefined;
  set(jobId: string, origin: LogOrigin, startS: number): void;
}

/** The beginnings of logs of which none is known yet. */
export function noLogStarts(): LogStarts {
  const known = new Map<string, number>();
  return {
    get: (jobId, origin) => known.get(`${origin} ${jobId}`),
    set: (jobId, origin, startS) => void known.set(`${origin} ${jobId}`, startS),
  };
}

/**
 * Turns the times of a log into seconds since the job's log began, row by row in the order of the file.
 *
 * Times of day go on across midnight: a step back by more than half a day. Where clocks stood twice at a time, the moment
 * counts that goes on from the row before. Times count from where the job's log is known to have begun, so that several
 * exports of one log come together; else from the first row.
 */
export class LogClock {
  readonly #origin: TimeOrigin;
  readonly #pastMidnight: boolean;
  readonly #starts: LogStarts;
  readonly #jobs = new Map<string, { firstS: number; previousS: number; days: number }>();

  /** @param pastMidnight whether only the time of day is the row's own, and its date the file's */
  constructor(origin: TimeOrigin, pastMidnight: boolean, starts: LogStarts) {
    this.#origin = origin;
    this.#pastMidnight = pastMidnight || origin === 'midnight';
    this.#starts = starts;
  }

  /** @param moments seconds since the origin, more than one where the clock does not tell which */
  elapsedS(jobId: string, moments: readonly number[]): number {
    if (this.#origin === 'duration') return moments[0];
    const job = this.#jobs.get(jobId);
    const momentS = job === undefined ? moments[0] : (moments.find((each) => each >= job.previousS) ?? moments[0]);
    if (job === undefined) {
      const known = this.#starts.get(jobId, this.#origin);
      if (known === undefined) this.#starts.set(jobId, this.#origin, momentS);
      const firstS = known ?? momentS;
      // A log that goes on in another file may have passed midnight between the two.
      const days = this.#origin === 'midnight' && momentS < firstS - dayS / 2 ? 1 : 0;
      this.#jobs.set(jobId, { firstS, previousS: momentS, days });
      return rounded(days * dayS + momentS - firstS);
    }
    if (this.#pastMidnight && momentS < job.previousS - dayS / 2) job.days += 1;
    job.previousS = momentS;
    return rounded(job.days * dayS + momentS - job.firstS);
  }
}

/** Differences of large numbers of seconds, to the microsecond: below that is only the machine's arithmetic. */
function rounded(seconds: number): number {
  return Math.round(seconds * 1e6) / 1e6;
}
