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
  /** Day of the first callback that commissioning could cause; infinite where there was none. */
  readonly callbackDays: Float64Array;
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
 * const courses = { isFollowed: Uint8Array.of(1), doneDays: Int32Array.of(100), nextDays: Float64Array.of(Infinity), nextFollowsUp: Uint8Array.of(0), callbackDays: Float64Array.of(130) };
 * followUps(courses, { fromDay: 0, toDay: 400, horizonDays: 365 }).stops[0] // 30
 */
export function followUps(courses: JobCourses, { fromDay, toDay, horizonDays }: WatchedPeriod): FollowUps {
  const { isFollowed, doneDays, nextDays, nextFollowsUp, callbackDays } = courses;
  const stopOf = (job: number): number =>
    Math.min(callbackDays[job], nextDays[job], toDay, doneDays[job] + horizonDays) - doneDays[job];
  const entryOf = (job: number): number => Math.max(-1, fromDay - 1 - doneDays[job]);
  const jobs = Int32Array.from(isFollowed.keys()).filter(
    (job) => isFollowed[job] === 1 && doneDays[job] <= toDay && entryOf(job) < stopOf(job),
  );
  const stops = Float64Array.from(jobs, stopOf);
  const endings = Uint8Array.from(jobs, (job, at) => {
    const day = doneDays[job] + stops[at];
    if (callbackDays[job] === day) return followUpEnding.callback;
    if (nextDays[job] === day) return nextFollowsUp[job] === 1 ? followUpEnding.revisited : followUpEnding.reworked;
    return stops[at] === horizonDays ? followUpEnding.horizon : followUpEnding.stillWatched;
  });
  return {
    jobs,
    entries: Float64Array.from(jobs, entryOf),
    stops,
    endings,
    events: endings.map((ending) => Number(ending === followUpEnding.callback)),
  };
}

/** Jobs that a model is fitted to at most. */
const mostRows = 100_000;

/** At most so many of the jobs, spread evenly over time. */
export function someFollowed(followed: FollowUps, most = mostRows): FollowUps {
  const count = followed.jobs.length;
  if (count <= most) return followed;
  const places = Int32Array.from({ length: most }, (_, at) => Math.floor((at * count) / most));
  return {
    jobs: places.map((place) => followed.jobs[place]),
    entries: Float64Array.from(places, (place) => followed.entries[place]),
    stops: Float64Array.from(places, (place) => followed.stops[place]),
    endings: Uint8Array.from(places, (place) => followed.endings[place]),
    events: Uint8Array.from(places, (place) => followed.events[place]),
  };
}

/** A silence so many times as long as usual is no chance: it comes once in 150 times. Common practice, no source. */
const silentTimes = 5;

/**
 * Over which days callbacks are on record: from the first job to the last entry of any kind, unless no callback comes for so long at
 * either end that they were not written down then.
 *
 * @param callbackDays of all callbacks, in any order
 * @param firstDay of the first job
 * @param lastDay on which anything is on record
 *
 * @example daysOnRecord([40, 10, 20, 30], 8, 300) // { fromDay: 8, toDay: 40 }
 */
export function daysOnRecord(
  callbackDays: readonly number[],
  firstDay: number,
  lastDay: number,
): Pick<WatchedPeriod, 'fromDay' | 'toDay'> {
  const sorted = callbackDays.toSorted((a, b) => a - b);
  const [first, last] = [sorted.at(0), sorted.at(-1)];
  if (first === undefined || last === undefined || sorted.length < 3) return { fromDay: firstDay, toDay: lastDay };
  const longest = (silentTimes * (last - first)) / (sorted.length - 1);
  return {
    fromDay: first - firstDay > longest ? first : firstDay,
    toDay: lastDay - last > longest ? last : lastDay,
  };
}
