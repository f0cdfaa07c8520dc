import { checks } from '../../checks/checks.ts';
import type { FleetJobs } from '../fleet-jobs.ts';
import { checkSkill, type Skill, skillOutcome, skillOutcomes } from '../skill.ts';
import { kaplanMeier, stepAt, type SurvivalStep } from '../statistics/kaplan-meier.ts';
import { type LogRank, logRank } from '../statistics/log-rank.ts';
import { type FollowUps, thinned } from './follow-up.ts';
import { revisitWeights } from './revisits.ts';

/** Jobs by what was found on them. */
export const jobGroups = ['flagged', 'clean', 'not-judged'] as const;

export type JobGroup = (typeof jobGroups)[number];

/** How many jobs of a group had a callback by an age. */
export interface CallbackShare {
  readonly ageDays: number;
  /** With its 95 % interval, ratios 0…1; null where nobody of the group was watched so long, or too few to tell. */
  readonly share: number | null;
  readonly low: number | null;
  readonly high: number | null;
  /** Jobs still watched at that age. */
  readonly watched: number;
}

/** The jobs of one group, and how long they went without a callback. */
export interface GroupCourse {
  readonly group: JobGroup;
  readonly jobs: number;
  readonly callbacks: number;
  readonly shares: readonly CallbackShare[];
}

/** How long jobs go without a callback, by what was found on them. */
export interface CallbackFree {
  readonly groups: readonly GroupCourse[];
  /** Flagged beside clean jobs of the same person; null where nobody has both at the time of a callback. */
  readonly logRank: LogRank | null;
  /** Whether jobs stand for those like them that were visited before a callback could come. */
  readonly isWeighted: boolean;
}

/** Checks of what a pressure, vacuum or rise test showed: a job without any was not judged. */
const isOfTests = ({ group, asks }: (typeof checks)[number]): boolean =>
  ['pressure-test', 'evacuation', 'rise'].includes(group) && asks === undefined;
/** A doubtful recording says nothing of the system. */
const isOfSystem = ({ group }: (typeof checks)[number]): boolean => group !== 'recording';

/** Jobs that are weighed at most. */
const mostWeighed = 100_000;

/** To which group each job belongs, as its place among `jobGroups`. */
export function groupOfJobs(jobs: FleetJobs): Uint8Array {
  const [any, tests] = [isOfSystem, isOfTests].map((which) => {
    const ids = checks.filter(which).map(({ id }) => id);
    const skill: Skill = { ...checkSkill(checks[0]), id: 'any', checkIds: ids };
    return skillOutcomes(jobs, skill);
  });
  return Uint8Array.from(any, (outcome, job) =>
    outcome === skillOutcome.found ? 0 : tests[job] === skillOutcome.clean ? 1 : 2,
  );
}

/** How long jobs go without a callback, flagged, clean and not judged ones apart, and whether that differs beyond chance. */
export function callbackFree(jobs: FleetJobs, all: FollowUps, ages: readonly number[]): CallbackFree {
  const some = thinned(all, mostWeighed);
  const weights = revisitWeights(jobs, all, some.jobs);
  const followed = weights === undefined ? all : some;
  const groupOf = groupOfJobs(jobs);
  const groups = jobGroups.map((group, at): GroupCourse => {
    const rows = rowsWhere(followed, (job) => groupOf[job] === at);
    const own = picked(followed, rows);
    const steps = kaplanMeier({
      ...own,
      ...(weights === undefined ? {} : { weightAt: (row: number, age: number) => weights(rows[row], age) }),
    });
    const of = rowsWhere(all, (job) => groupOf[job] === at);
    return {
      group,
      jobs: of.length,
      callbacks: of.reduce((sum, row) => sum + all.events[row], 0),
      shares: ages.map((age) => shareBy(steps, picked(all, of), age)),
    };
  });
  const judged = rowsWhere(all, (job) => groupOf[job] < 2);
  const isFlagged = Uint8Array.from(judged, (row) => Number(groupOf[all.jobs[row]] === 0));
  // Each person's jobs beside the same person's: who has more of both makes no difference.
  const strata = Int32Array.from(judged, (row) => jobs.units.technician.of[all.jobs[row]]);
  const beside = logRank({ ...picked(all, judged), strata }, isFlagged);
  return { groups, logRank: beside.variance > 0 ? beside : null, isWeighted: weights !== undefined };
}

function rowsWhere({ jobs }: FollowUps, isOne: (job: number) => boolean): Int32Array {
  const rows = new Int32Array(jobs.length);
  let count = 0;
  for (let row = 0; row < jobs.length; row += 1) {
    if (!isOne(jobs[row])) continue;
    rows[count] = row;
    count += 1;
  }
  return rows.subarray(0, count);
}

function picked({ entries, stops, events }: FollowUps, rows: Int32Array) {
  return {
    entries: Float64Array.from(rows, (row) => entries[row]),
    stops: Float64Array.from(rows, (row) => stops[row]),
    events: Uint8Array.from(rows, (row) => events[row]),
  };
}

/** Of fewer jobs at risk when somebody called no share is told. Common practice, no source. */
const fewestAtRisk = 5;

function shareBy(
  steps: readonly SurvivalStep[],
  { entries, stops }: Pick<FollowUps, 'entries' | 'stops'>,
  ageDays: number,
): CallbackShare {
  const step = stepAt(steps, ageDays);
  const watched = stops.reduce((count, stop, row) => count + Number(stop >= ageDays && entries[row] < ageDays), 0);
  const isThin = steps.some(({ time, atRisk }) => time <= ageDays && atRisk < fewestAtRisk);
  if (watched === 0 || isThin) return { ageDays, share: null, low: null, high: null, watched };
  if (step === undefined) return { ageDays, share: 0, low: 0, high: Math.min(1, ruleOfThree / watched), watched };
  return { ageDays, share: 1 - step.share, low: 1 - step.high, high: 1 - step.low, watched };
}

/** Where nothing happened to so many, the upper end of the interval is three of them, one-sided 95 %. */
const ruleOfThree = 3;
