import { fitLogistic } from '../../numerics/penalised-logistic.ts';
import type { JudgedJobs } from './month-chart.ts';

/** What is known of one person and one skill around a training. */
export interface TrainingSides {
  readonly before: JudgedJobs;
  readonly after: JudgedJobs;
  /** Standard deviation of the true effects between people [logit], 0 or more; 0 where all are alike but for their jobs. */
  readonly spread: number;
}

/** Jobs before a training, or after it. */
export interface TrainingSide {
  readonly jobs: number;
  readonly found: number;
  /** What was expected of these jobs by mix and season [count]. */
  readonly expected: number;
  /** Null without a job. */
  readonly share: number | null;
}

/** How the odds after a training stand to what would have been without it. */
export interface TrainingEffect {
  readonly before: TrainingSide;
  readonly after: TrainingSide;
  /** Share that is expected of the jobs after, had there been no training [ratio]; null without any. */
  readonly baseline: number | null;
  /** Odds after over odds without training; 95 of 100 such intervals hold the true one. */
  readonly oddsRatio: { readonly low: number; readonly mid: number; readonly high: number };
  readonly verdict: 'better' | 'worse' | 'no-change-shown' | 'too-few';
}

/** With fewer judged jobs on a side there is no verdict; common practice, no source. */
const leastJobs = 10;

/** After a training anything up to some of these is as likely as none [logit]; it only keeps 0 found from running away. */
const weakSpread = 3;

/** Chances of 0 and 1 count as this far from them: nothing is that sure, and neither has odds. */
const leastChance = 1e-4;

const normalQuantile95 = 1.959964;

/**
 * What a training did to one person: the jobs after it, against what would be expected of them without it.
 *
 * Who is sent to a training after a bad stretch gets better by chance alone. So what was before is not taken as found, but drawn to
 * what is expected of all, the more the fewer the jobs and the less people differ. What is after stands for itself.
 *
 * @param sides `spread` as `crossedEffects` tells it; a wrong one shows. People who differ by 0.4 and are taken for alike: the worst of
 *   twelve is called worse by 47 % after a training that does nothing. Alike ones who are taken to differ by 0.4: better by 8 %.
 *
 * Source: logistic model with what is expected as its offset, penalty by `le-cessie-1992`; `bland-altman-1994` for what is to be taken
 * off, `efron-morris-1977` for how. Accuracy: by simulation, 60 jobs a side with chances of 0.05 to 0.5. The worst of twelve alike
 * people is called better by 1.9 % after a training that does nothing, 2.4 % where people differ by 0.4; two shares held against each
 * other say so on 15 % and 8 %. Of odds ratios of 0.4 the interval holds 96 %, 97 % at 20 jobs a side. They are called better by 72 %
 * where people are alike and 53 % where they differ by 0.4; at 20 jobs by 17 % and 11 %, at 120 by 97 % and 83 %.
 *
 * @example
 * const [before, after] = [4, 1].map((found) => ({ found: [...Array(found).fill(1), ...Array(12 - found).fill(0)], chances: Array(12).fill(0.25) }));
 * trainingEffect({ before, after, spread: 0 }).verdict // 'no-change-shown'
 */
export function trainingEffect({ before, after, spread }: TrainingSides): TrainingEffect {
  const [then, since] = [effectOf(before, spread), effectOf(after, weakSpread)];
  const mid = since.effect - then.effect;
  const half = normalQuantile95 * Math.sqrt(since.variance + then.variance);
  const [sideBefore, sideAfter] = [sideOf(before), sideOf(after)];
  const without = Array.from(after.chances, (chance) => 1 / (1 + Math.exp(-logit(chance) - then.effect)));
  const baseline = sideAfter.jobs === 0 ? null : without.reduce(sum, 0) / sideAfter.jobs;
  const isEnough = Math.min(sideBefore.jobs, sideAfter.jobs) >= leastJobs;
  const shown = mid + half < 0 ? 'better' : mid - half > 0 ? 'worse' : 'no-change-shown';
  return {
    before: sideBefore,
    after: sideAfter,
    baseline,
    oddsRatio: { low: Math.exp(mid - half), mid: Math.exp(mid), high: Math.exp(mid + half) },
    verdict: isEnough ? shown : 'too-few',
  };
}

/** How a person differs from what was expected of the jobs [logit], people differing by a standard deviation. */
function effectOf({ found, chances }: JudgedJobs, deviation: number): { effect: number; variance: number } {
  if (deviation === 0) return { effect: 0, variance: 0 };
  const jobs = found.length;
  const rows = {
    width: 1,
    columns: new Int32Array(jobs),
    successes: Float64Array.from(found),
    trials: new Float64Array(jobs).fill(1),
    offsets: Float64Array.from(chances, logit),
  };
  const fit = fitLogistic(rows, Float64Array.of(1 / deviation ** 2));
  return { effect: fit?.coefficients[0] ?? 0, variance: fit?.covariance[0] ?? deviation ** 2 };
}

function sideOf({ found, chances }: JudgedJobs): TrainingSide {
  const jobs = found.length;
  const count = Array.from(found).reduce(sum, 0);
  return { jobs, found: count, expected: Array.from(chances).reduce(sum, 0), share: jobs === 0 ? null : count / jobs };
}

function logit(chance: number): number {
  const kept = Math.min(1 - leastChance, Math.max(leastChance, chance));
  return Math.log(kept / (1 - kept));
}

function sum(total: number, value: number): number {
  return total + value;
}
