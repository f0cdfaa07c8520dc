import { describe, expect, test } from 'vitest';
import { LogClock, noLogStarts } from '../../src/sources/log-clock.ts';

const elapsed = (clock: LogClock, moments: readonly (number | readonly number[])[], job = 'J') =>
  moments.map((each) => clock.elapsedS(job, typeof each === 'number' ? [each] : each));

describe('seconds since the log of a job began', () => {
  test('what is counted from the start already stays', () => {
    expect(elapsed(new LogClock('duration', false, noLogStarts()), [30, 10, 30.5])).toEqual([30, 10, 30.5]);
  });

  test('times of day go on across midnight, again and again, and small steps back stay', () => {
    const clock = new LogClock('midnight', false, noLogStarts());
    expect(elapsed(clock, [86_390, 5, 43_205, 43_200, 86_399, 1])).toEqual([0, 15, 43_215, 43_210, 86_409, 86_411]);
  });

  test('each job has its own clock', () => {
    const clock = new LogClock('midnight', false, noLogStarts());
    expect([
      ...elapsed(clock, [86_390, 10], 'A'),
      ...elapsed(clock, [100, 160], 'B'),
      ...elapsed(clock, [20], 'A'),
    ]).toEqual([0, 20, 0, 60, 30]);
  });

  test('points in time step back as they are, unless only the time of day is the row’s own', () => {
    const start = 1_772_755_200;
    const moments = [start + 86_390, start + 10, start + 20];
    expect(elapsed(new LogClock('epoch', false, noLogStarts()), moments)).toEqual([0, -86_380, -86_370]);
    expect(elapsed(new LogClock('epoch', true, noLogStarts()), moments)).toEqual([0, 20, 30]);
  });

  test('where a clock stood twice at a time, the moment counts that goes on from the row before', () => {
    // 2:30 for the first time, 2:59:30, 2:00 and 2:30 for the second time.
    const clock = new LogClock('epoch', false, noLogStarts());
    expect(
      elapsed(clock, [
        [1800, 5400],
        [3570, 7170],
        [0, 3600],
        [1800, 5400],
      ]),
    ).toEqual([0, 1770, 1800, 3600]);
  });

  test('a log whose beginning is known counts from there, and one that is new is remembered', () => {
    const starts = noLogStarts();
    starts.set('J', 'epoch', 1000);
    expect(elapsed(new LogClock('epoch', false, starts), [1060, 1000, 990])).toEqual([60, 0, -10]);
    expect(elapsed(new LogClock('epoch', false, starts), [2000.5], 'K')).toEqual([0]);
    expect(['J', 'K'].map((job) => starts.get(job, 'epoch'))).toEqual([1000, 2000.5]);
    // Times of day are another way to count.
    expect(elapsed(new LogClock('midnight', false, starts), [82_800], 'J')).toEqual([0]);
    // In another file the log goes on, before midnight and after.
    expect(elapsed(new LogClock('midnight', false, starts), [82_860, 86_399, 5], 'J')).toEqual([60, 3599, 3605]);
    expect(elapsed(new LogClock('midnight', false, starts), [600], 'J')).toEqual([4200]);
  });

  test('differences are to the microsecond', () => {
    expect(elapsed(new LogClock('epoch', false, noLogStarts()), [1_772_800_000.1, 1_772_800_000.4])).toEqual([0, 0.3]);
  });
});
