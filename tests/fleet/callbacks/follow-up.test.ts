import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  daysOnRecord,
  followUpEnding,
  followUps,
  type JobCourses,
  someFollowed,
} from '../../../src/fleet/callbacks/follow-up.ts';

const never = Number.POSITIVE_INFINITY;

/** One job done on day 100. */
function courses({ next = never, followsUp = 0, callback = never, done = 100, named = 0 } = {}): JobCourses {
  return {
    isFollowed: Uint8Array.of(1),
    doneDays: Int32Array.of(done),
    nextDays: Float64Array.of(next),
    nextFollowsUp: Uint8Array.of(followsUp),
    nextPlaces: Int32Array.of(-1),
    callbackDays: Float64Array.of(callback),
    isNamed: Uint8Array.of(named),
  };
}

const year = { fromDay: 0, toDay: 300, horizonDays: 365 };
const watched = (of: JobCourses, period = year) => {
  const { jobs, entries, stops, endings, events } = followUps(of, period);
  return jobs.length === 0 ? undefined : [entries[0], stops[0], endings[0], events[0]];
};

describe('a job is watched', () => {
  test.each([
    ['until the record ends', {}, year, [-1, 200, followUpEnding.stillWatched, 0]],
    ['until its callback', { callback: 130 }, year, [-1, 30, followUpEnding.callback, 1]],
    [
      'until its callback, on the very day of the job too',
      { callback: 100 },
      year,
      [-1, 0, followUpEnding.callback, 1],
    ],
    [
      'until it is followed up',
      { next: 120, followsUp: 1, callback: 130 },
      year,
      [-1, 20, followUpEnding.revisited, 0],
    ],
    ['until its circuit is worked on again', { next: 120, callback: 130 }, year, [-1, 20, followUpEnding.reworked, 0]],
    [
      'until its callback, where that leads to the next work on the same day',
      { next: 130, followsUp: 1, callback: 130 },
      year,
      [-1, 30, followUpEnding.callback, 1],
    ],
    [
      'until the callback that the source lays to it, whatever was done in between',
      { next: 120, callback: 130, named: 1 },
      year,
      [-1, 30, followUpEnding.callback, 1],
    ],
    ['until the horizon', {}, { ...year, horizonDays: 90 }, [-1, 90, followUpEnding.horizon, 0]],
    [
      'until a callback on the last day of the horizon',
      { callback: 190 },
      { ...year, horizonDays: 90 },
      [-1, 90, followUpEnding.callback, 1],
    ],
    [
      'and a callback after the horizon is none of its',
      { callback: 191 },
      { ...year, horizonDays: 90 },
      [-1, 90, followUpEnding.horizon, 0],
    ],
    [
      'and a callback after the record is not known yet',
      { callback: 301 },
      year,
      [-1, 200, followUpEnding.stillWatched, 0],
    ],
    ['from when on callbacks are on record', {}, { ...year, fromDay: 150 }, [49, 200, followUpEnding.stillWatched, 0]],
    [
      'and a callback on the first day of the record counts',
      { callback: 150 },
      { ...year, fromDay: 150 },
      [49, 50, followUpEnding.callback, 1],
    ],
  ] as const)('%s', (_, of, period, expected) => {
    expect(watched(courses(of), period)).toEqual(expected);
  });

  test('not at all where it ended before the record began, or began after it ended', () => {
    expect(watched(courses({ callback: 120 }), { ...year, fromDay: 150 })).toBeUndefined();
    expect(watched(courses({ done: 301 }))).toBeUndefined();
    expect(watched({ ...courses(), isFollowed: Uint8Array.of(0) })).toBeUndefined();
  });

  test('never longer than the record, the horizon, or what ends it; and each callback in the record counts once', () => {
    const day = fc.integer({ min: 0, max: 900 });
    fc.assert(
      fc.property(
        day,
        day,
        day,
        fc.integer({ min: 1, max: 500 }),
        fc.integer({ min: 0, max: 900 }),
        (done, later, after, horizonDays, toDay) => {
          const of = courses({ done, callback: done + later, next: done + after });
          const found = watched(of, { fromDay: 0, toDay, horizonDays });
          if (found === undefined) return toDay < done;
          const [entry, stop, ending, event] = found;
          expect(entry).toBeLessThan(stop);
          expect(stop).toBe(Math.min(later, after, horizonDays, toDay - done));
          expect(event).toBe(Number(ending === followUpEnding.callback));
          expect(event).toBe(Number(later === stop));
          return true;
        },
      ),
    );
  });
});

describe('callbacks are on record', () => {
  // A job each day from day 10 to 400, and a callback every fifth day.
  const done = Int32Array.from({ length: 391 }, (_, at) => 10 + at);
  const often = Array.from({ length: 60 }, (_, at) => 100 + 5 * at);

  test('from the first job to the last entry, where they come as usual', () => {
    const all = Array.from({ length: 76 }, (_, at) => 25 + 5 * at);
    expect(daysOnRecord(all, done, 410, 365)).toEqual({ fromDay: 10, toDay: 410 });
  });
  test('up to the last one, where none comes for far longer than the jobs let expect', () => {
    expect(daysOnRecord(often, done, 600, 365)).toEqual({ fromDay: 10, toDay: 395 });
  });
  test('from the first one, where many jobs go back far longer', () => {
    const years = Int32Array.from({ length: 1500 }, (_, at) => at - 1100);
    expect(daysOnRecord(often.toReversed(), years, 400, 365)).toEqual({ fromDay: 100, toDay: 400 });
  });
  test('from the first job of a young shop, whose callbacks come late because its jobs do', () => {
    const young = Int32Array.from({ length: 200 }, (_, at) => at);
    expect(daysOnRecord([60, 90, 120, 150, 170, 190, 198], young, 199, 365).fromDay).toBe(0);
  });
  test('all the time, where there are none', () => {
    expect(daysOnRecord([], done, 900, 365)).toEqual({ fromDay: 10, toDay: 900 });
  });
});

describe('of many jobs some are taken', () => {
  const jobs = Int32Array.from({ length: 1000 }, (_, at) => at);
  const events = Uint8Array.from(jobs, (job) => Number(job % 50 === 0));
  const followed = {
    jobs,
    events,
    entries: new Float64Array(1000).fill(-1),
    stops: Float64Array.from(jobs),
    endings: events,
  };

  test('all that had a callback, and of the others some, each for as many', () => {
    const some = someFollowed(followed, 200);
    expect(some.jobs).toHaveLength(200);
    expect(some.events.reduce((sum, event) => sum + event, 0)).toBe(20);
    expect(some.weights?.filter((weight) => weight === 1)).toHaveLength(20);
    expect(some.weights?.reduce((sum, weight) => sum + weight, 0)).toBeCloseTo(1000, 6);
    expect(Array.from(some.jobs)).toEqual(Array.from(some.jobs).sort((a, b) => a - b));
  });
  test('of too many callbacks some as well, and the others for fewer', () => {
    const some = someFollowed({ ...followed, events: events.map((_, at) => Number(at % 2 === 0)) }, 100);
    expect(some.events.reduce((sum, event) => sum + event, 0)).toBe(10);
    // 500 of 90 beside 500 of 10.
    expect(Math.min(...(some.weights ?? []))).toBeCloseTo(10 / 90, 9);
  });
  test('of callbacks alone as many as there is room for', () => {
    expect(someFollowed({ ...followed, events: events.map(() => 1) }, 100).jobs).toHaveLength(100);
  });
  test('few are left as they are', () => {
    expect(someFollowed(followed, 1000)).toBe(followed);
  });
});
