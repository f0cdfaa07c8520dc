import { callbackCause, type CauseTold } from '../fleet/callbacks/callback-cause.ts';
import { CallbackModels } from '../fleet/callbacks/callback-models.ts';
import {
  daysOnRecord,
  followUps,
  type FollowUps,
  type JobCourses,
  type WatchedPeriod,
} from '../fleet/callbacks/follow-up.ts';
import { fewestCallbacks } from '../fleet/callbacks/risk-record.ts';
import { dateOf } from '../numerics/calendar-day.ts';
import type { CallbackSummary } from '../pages/callback-data.ts';
import { readJobCourses, readTracedCallbacks, type TracedCallback } from '../store/job-courses.ts';
import type { Store } from '../store/store.ts';
import { type OpenFleet, openFleet } from './open-fleet.ts';

export interface CallbackOptions {
  readonly codes: boolean;
  /** How long after its job a callback is still laid to it; absent: a year. */
  readonly horizonDays?: number;
  readonly onProgress?: (done: number, of: number, note: string) => void;
}

/** A callback, its cause, and whether an earlier one that commissioning could have caused traces to the same job. */
export interface SeenCallback extends TracedCallback {
  readonly cause: CauseTold;
  readonly isBeyondHorizon: boolean;
  readonly isRepeat: boolean;
}

/** A fleet and its callbacks, with what all reports on them need; models are fitted when they are asked for. */
export interface OpenCallbacks {
  readonly fleet: OpenFleet;
  /** In the order of time. */
  readonly callbacks: readonly SeenCallback[];
  readonly courses: JobCourses;
  readonly period: WatchedPeriod;
  readonly followed: FollowUps;
  readonly models: CallbackModels;
  /** Last day on which anything is on record, since 1970. */
  readonly lastDay: number;
  readonly summary: CallbackSummary;
}

/** Days after a job within which a callback is laid to it. Common practice, no source: as long as makers and shops usually warrant work. */
export const usualHorizonDays = 365;

/**
 * Reads all judged jobs of a store and its callbacks, each traced to the job that it is laid to.
 *
 * @throws DryholdError `not-judged`
 */
export async function openCallbacks(
  store: Store,
  { codes, horizonDays = usualHorizonDays }: CallbackOptions,
): Promise<OpenCallbacks> {
  const fleet = await openFleet(store, codes);
  const callbacks = seenCallbacks(await readTracedCallbacks(store), horizonDays);
  const { jobs } = fleet;
  const callbackDays = new Float64Array(jobs.count).fill(Number.POSITIVE_INFINITY);
  const isNamed = new Uint8Array(jobs.count);
  for (const { place, day, cause, isBeyondHorizon, tracedBy } of callbacks)
    if (place >= 0 && !isBeyondHorizon && cause.cause !== 'other' && day < callbackDays[place]) {
      callbackDays[place] = day;
      isNamed[place] = Number(tracedBy === 'job');
    }
  const courses = { ...(await readJobCourses(store, jobs.count)), callbackDays, isNamed };
  const days = callbacks.map(({ day }) => day);
  const lastDay = Math.max(jobs.days.at(-1) ?? 0, days.at(-1) ?? 0);
  const couldBeLaidTo = courses.doneDays.filter((_, job) => courses.isFollowed[job] === 1);
  const period = { ...daysOnRecord(days, couldBeLaidTo, lastDay, horizonDays), horizonDays };
  const followed = followUps(courses, period);
  const counted = followed.events.reduce((sum, event) => sum + event, 0);
  return {
    fleet,
    callbacks,
    courses,
    period,
    followed,
    models: new CallbackModels(jobs, followed),
    lastDay,
    summary: {
      ...fleet.summary,
      lastDay: dateOf(lastDay),
      onRecord: { from: dateOf(period.fromDay), to: dateOf(period.toDay) },
      horizonDays,
      callbacks: callbacks.length,
      counted,
      uncounted: callbackDays.filter((day) => Number.isFinite(day)).length - counted,
      withoutSystem: couldBeLaidTo.length === 0 ? jobs.count : 0,
      fewest: fewestCallbacks,
    },
  };
}

function seenCallbacks(traced: readonly TracedCallback[], horizonDays: number): SeenCallback[] {
  const seen = new Set<string>();
  return traced.map((callback) => {
    const { jobId, reason, causeFound, refrigerantAddedKg, daysAfter } = callback;
    const cause = callbackCause({ reason, cause_found: causeFound, refrigerant_added_kg: refrigerantAddedKg });
    // What is plainly something else repeats nothing.
    const isOurs = jobId !== null && cause.cause !== 'other';
    const isRepeat = isOurs && seen.has(jobId);
    if (isOurs) seen.add(jobId);
    return { ...callback, isRepeat, cause, isBeyondHorizon: daysAfter !== null && daysAfter > horizonDays };
  });
}
