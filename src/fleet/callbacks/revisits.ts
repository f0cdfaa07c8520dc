import type { FleetJobs } from '../fleet-jobs.ts';
import { RiskModel } from './callback-risk.ts';
import { followUpEnding, type FollowUps, type JobCourses } from './follow-up.ts';
import { choosePredictors } from './predictors.ts';

/** Fewer visits tell nothing of what prompts them. Common practice, no source. */
const fewestRevisits = 10;
/** As many events allow for every predictor that is not very rare. */
const allPredictors = 400;
/** No job stands for more than so many. Common practice, no source. */
const mostWeight = 20;

/**
 * For how many jobs each stands at an age, since jobs like it were visited before their callback could come: without that, who is looked
 * after would seem not to have needed it.
 *
 * @param followed the jobs as they were watched
 * @param asked of which jobs it is asked
 * @returns by row of `asked` and age [days]; undefined where visits are too few to tell what prompts them
 *
 * Source: `robins-finkelstein-2000`.
 */
export function revisitWeights(
  jobs: FleetJobs,
  followed: FollowUps,
  asked: Int32Array = followed.jobs,
): ((row: number, age: number) => number) | undefined {
  const events = followed.endings.map((ending) =>
    // Many shops do not write down what a visit was for.
    Number(ending === followUpEnding.revisited || ending === followUpEnding.reworked),
  );
  const visits = events.reduce((sum, event) => sum + event, 0);
  if (visits < fewestRevisits) return undefined;
  const visited = { ...followed, events };
  // What prompts visits need not be named, so nothing is left out for want of them.
  const model = RiskModel.fit(jobs, visited, choosePredictors(jobs, visited, allPredictors).chosen);
  if (model === undefined) return undefined;
  const relative = Float64Array.from(asked, (job) => model.relative(job));
  let [known, common] = [Number.NaN, 0];
  return (row, age) => {
    // Asked for all rows of one age after the other.
    if (age !== known) [known, common] = [age, model.common(-1, age - 1)];
    return Math.min(mostWeight, Math.exp(relative[row] * common));
  };
}

/** What would have come of the jobs that were visited, had they been left alone. */
export interface Prevented {
  /** How many were visited before any callback. */
  readonly visits: number;
  /** Callbacks that were to be expected of them until the horizon, with the 95 % interval; null where nothing tells. */
  readonly callbacks: { readonly expected: number; readonly low: number; readonly high: number } | null;
  /** How many called back all the same: the job, or the visit itself, within the horizon. */
  readonly allTheSame: number;
}

const normal95 = 1.959964;

/** How many callbacks the visits that findings prompted have hidden. */
export function preventedCallbacks(
  followed: FollowUps,
  { doneDays, nextPlaces, callbackDays }: JobCourses,
  model: RiskModel | undefined,
  horizonDays: number,
): Prevented {
  const visited = [...followed.jobs.keys()].filter((row) => followed.endings[row] === followUpEnding.revisited);
  const allTheSame = visited.filter((row) => {
    const job = followed.jobs[row];
    const next = nextPlaces[job];
    const day = Math.min(callbackDays[job], next < 0 ? Number.POSITIVE_INFINITY : callbackDays[next]);
    return day <= doneDays[job] + horizonDays;
  }).length;
  if (model === undefined || visited.length === 0) return { visits: visited.length, callbacks: null, allTheSame };
  const risks = visited.map((row) => model.risk(followed.jobs[row], followed.stops[row], horizonDays));
  const [expected, low, high] = (['risk', 'low', 'high'] as const).map((which) =>
    risks.reduce((sum, risk) => sum + risk[which], 0),
  );
  // Which of them would have called is a matter of chance as well.
  const byChance = risks.reduce((sum, { risk }) => sum + risk * (1 - risk), 0);
  const away = (end: number): number => Math.hypot(end - expected, normal95 * Math.sqrt(byChance));
  return {
    visits: visited.length,
    callbacks: { expected, low: Math.max(0, expected - away(low)), high: expected + away(high) },
    allTheSame,
  };
}
