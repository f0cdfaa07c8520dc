/** What came of the jobs of a fleet, in their order. Days count from 1970. */
export interface JobCourses {
  /** 1 for work that leaves something behind in a circuit that callbacks can name. */
  readonly isFollowed: Uint8Array;
  /** Day on which the work was done. */
  readonly doneDays: Int32Array;
  /** Day on which the next work on the same circuit began; infinite where there was none. */
  readonly nextDays: Float64Array;
  /** 1 where that was a visit to follow this job up. */
  readonly nextFollowsUp: Uint8Array;
  /** Its place among the jobs of the fleet; −1 where there was none, or it is not judged. */
  readonly nextPlaces: Int32Array;
  /** Day of the first callback that commissioning could cause; infinite where there was none. */
  readonly callbackDays: Float64Array;
  /** 1 where the source itself lays that callback to this job, whatever was done in between. */
  readonly isNamed: Uint8Array;
}

/** What ended the watch over a job. */
export const followUpEnding = { stillWatched: 0, callback: 1, revisited: 2, reworked: 3, horizon: 4 } as const;

/** Jobs as they were watched: each from an age to an age, in days since its work was done. */
export interface FollowUps {
  /** Places of the jobs among those of the fleet. */
  readonly jobs: Int32Array;
  /** Age after which each is watched; −1 for from the beginning. */
  readonly entries: Float64Array;
  readonly stops: Float64Array;
  readonly endings: Uint8Array;
  /** 1 where the watch ended with a callback. */
  readonly events: Uint8Array;
}

/** Over which days callbacks are on record, and how long after its job one is still laid to it. */
export interface WatchedPeriod {
  readonly fromDay: number;
  readonly toDay: number;
  readonly horizonDays: number;
}

/**
 * How each job was watched: until a callback, a visit to follow it up, other work on its circuit, the horizon, or the end of the record.
 *
 * @example
 * const courses = { isFollowed: Uint8Array.of(1), doneDays: Int32Array.of(100), nextDays: Float64Array.of(Infinity), nextFollowsUp: Uint8Array.of(0), nextPlaces: Int32Array.of(-1), callbackDays: Float64Array.of(130), isNamed: Uint8Array.of(0) };
 * followUps(courses, { fromDay: 0, toDay: 400, horizonDays: 365 }).stops[0] // 30
 */
export function followUps(courses: JobCourses, { fromDay, toDay, horizonDays }: WatchedPeriod): FollowUps {
  const { isFollowed, doneDays, nextFollowsUp, callbackDays, isNamed } = courses;
  const { nextDays } = courses;
  const watched = {
    jobs: new Int32Array(isFollowed.length),
    entries: new Float64Array(isFollowed.length),
    stops: new Float64Array(isFollowed.length),
    endings: new Uint8Array(isFollowed.length),
    events: new Uint8Array(isFollowed.length),
  };
  let count = 0;
  for (let job = 0; job < isFollowed.length; job += 1) {
    const doneDay = doneDays[job];
    if (isFollowed[job] !== 1 || doneDay > toDay) continue;
    const lastDay = isNamed[job] === 1 ? Math.max(nextDays[job], callbackDays[job]) : nextDays[job];
    const stop = Math.min(callbackDays[job], lastDay, toDay, doneDay + horizonDays) - doneDay;
    const entry = Math.max(-1, fromDay - 1 - doneDay);
    if (entry >= stop) continue;
    const day = doneDay + stop;
    const reworked = nextFollowsUp[job] === 1 ? followUpEnding.revisited : followUpEnding.reworked;
    const unended = stop === horizonDays ? followUpEnding.horizon : followUpEnding.stillWatched;
    watched.jobs[count] = job;
    watched.entries[count] = entry;
    watched.stops[count] = stop;
    watched.endings[count] = callbackDays[job] === day ? followUpEnding.callback : lastDay === day ? reworked : unended;
    watched.events[count] = Number(watched.endings[count] === followUpEnding.callback);
    count += 1;
  }
  return {
    jobs: watched.jobs.slice(0, count),
    entries: watched.entries.slice(0, count),
    stops: watched.stops.slice(0, count),
    endings: watched.endings.slice(0, count),
    events: watched.events.slice(0, count),
  };
}

/** Jobs that a model is fitted to at most. */
const mostRows = 30_000;
/** Of them, those that had a callback: more jobs without one beside each tell hardly more. Common practice, no source. */
const calledShare = 0.1;

/** Some jobs: for how many each stands, beside one that had a callback; absent: 1. */
export interface SomeFollowUps extends FollowUps {
  readonly weights?: Float64Array;
}

/**
 * At most so many of the jobs: all that had a callback, where they are no more than a tenth of that, and of the others some, spread
 * evenly over time, each of which stands for as many.
 */
export function someFollowed(followed: FollowUps, most = mostRows): SomeFollowUps {
  const count = followed.jobs.length;
  if (count <= most) return followed;
  const [called, others] = [1, 0].map((event) => rowsWith(followed, event));
  const few = spread(called, Math.max(most * calledShare, most - others.length));
  const some = [...few, ...spread(others, most - few.length)].sort((a, b) => a - b);
  const kept = some.filter((row) => followed.events[row] === 1).length;
  const weight = others.length / (some.length - kept) / (called.length === 0 ? 1 : called.length / kept);
  return {
    ...picked(followed, some),
    weights: Float64Array.from(some, (row) => (followed.events[row] === 1 ? 1 : weight)),
  };
}

/** At most so many of the jobs, evenly, whatever came of them. */
export function thinned(followed: FollowUps, most: number): FollowUps {
  const { length } = followed.jobs;
  return length <= most
    ? followed
    : picked(
        followed,
        spread(
          Int32Array.from({ length }, (_, row) => row),
          most,
        ),
      );
}

/** The rows that ended with a callback, or without. */
function rowsWith({ events }: FollowUps, event: number): Int32Array {
  const rows = new Int32Array(events.length);
  let count = 0;
  for (let row = 0; row < events.length; row += 1) {
    if (events[row] !== event) continue;
    rows[count] = row;
    count += 1;
  }
  return rows.subarray(0, count);
}

function picked({ jobs, entries, stops, endings, events }: FollowUps, rows: readonly number[]): FollowUps {
  return {
    jobs: Int32Array.from(rows, (row) => jobs[row]),
    entries: Float64Array.from(rows, (row) => entries[row]),
    stops: Float64Array.from(rows, (row) => stops[row]),
    endings: Uint8Array.from(rows, (row) => endings[row]),
    events: Uint8Array.from(rows, (row) => events[row]),
  };
}

/** At most so many of them, evenly. */
function spread(rows: Int32Array, most: number): number[] {
  const count = Math.min(rows.length, Math.floor(most));
  return Array.from({ length: count }, (_, at) => rows[Math.floor((at * rows.length) / count)]);
}

/** So many callbacks where none came are no chance: it comes once in 3,000 times, and of seasons once in a while. Common practice, no source. */
const silentCallbacks = 8;
/** Of fewer no rate is told. */
const fewestTold = 5;

/**
 * Over which days callbacks are on record: from the first job to the last entry of any kind, unless none comes at either end where so many
 * were to be expected of the jobs that were done by then that they were not written down.
 *
 * @param callbackDays of all callbacks, in any order
 * @param doneDays of all jobs that callbacks could be laid to
 * @param lastDay on which anything is on record
 */
export function daysOnRecord(
  callbackDays: readonly number[],
  doneDays: Int32Array,
  lastDay: number,
  horizonDays: number,
): Pick<WatchedPeriod, 'fromDay' | 'toDay'> {
  const firstDay = doneDays.reduce((least, day) => Math.min(least, day), lastDay);
  const sorted = callbackDays.toSorted((a, b) => a - b);
  const [first, last] = [sorted.at(0), sorted.at(-1)];
  if (first === undefined || last === undefined || sorted.length < fewestTold)
    return { fromDay: firstDay, toDay: lastDay };
  const watched = (from: number, to: number): number =>
    doneDays.reduce((sum, day) => sum + Math.max(0, Math.min(to, day + horizonDays) - Math.max(from, day)), 0);
  const rate = sorted.length / Math.max(1, watched(first, last));
  return {
    fromDay: rate * watched(firstDay, first) > silentCallbacks ? first : firstDay,
    toDay: rate * watched(last, lastDay) > silentCallbacks ? last : lastDay,
  };
}
