import type { JudgedSeries } from '../../../src/fleet/statistics/month-chart.ts';
import type { Random } from '../../../src/numerics/random.ts';

/** How a series is drawn. */
export interface SeriesPlan {
  readonly jobs: number;
  /** What is expected of the next job. */
  readonly chance: (random: Random) => number;
  /** What the odds of a job are multiplied by; absent: 1. */
  readonly oddsRatio?: (job: number) => number;
  readonly jobsAMonth?: number;
}

/** Judged jobs as chance makes them, at moments that know nothing of each other. */
export function drawnSeries(
  random: Random,
  { jobs, chance, oddsRatio = () => 1, jobsAMonth = 8 }: SeriesPlan,
): JudgedSeries {
  const [found, chances, days] = [new Uint8Array(jobs), new Float64Array(jobs), new Float64Array(jobs)];
  let day = 20_000;
  for (let job = 0; job < jobs; job += 1) {
    day += random.exponential(30.44 / jobsAMonth);
    days[job] = Math.floor(day);
    chances[job] = chance(random);
    const odds = (oddsRatio(job) * chances[job]) / (1 - chances[job]);
    found[job] = random.chance(odds / (1 + odds)) ? 1 : 0;
  }
  return { found, chances, days };
}
