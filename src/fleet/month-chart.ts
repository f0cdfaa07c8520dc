import { type PChartPoint, pChart } from './p-chart.ts';

/** Judged jobs of one unit and one skill. Parallel arrays, one entry a job. */
export interface JudgedJobs {
  /** 1 where the job has the trait, else 0. */
  readonly found: ArrayLike<number>;
  /** What was expected of this very job, by its mix and season, 0…1. */
  readonly chances: ArrayLike<number>;
}

/** The same in the order of time. */
export interface JudgedSeries extends JudgedJobs {
  /** Days since 1970-01-01, ascending. */
  readonly days: ArrayLike<number>;
}

/** A calendar month beside what was expected of its jobs. */
export interface MonthPoint extends PChartPoint {
  /** Months since January 1970. */
  readonly month: number;
  /** Its jobs are those from this index… */
  readonly from: number;
  /** …up to the one before this. */
  readonly end: number;
  readonly found: number;
  /** False of a month with too few jobs; it is never out. */
  readonly isJudged: boolean;
}

/** A month with fewer judged jobs gets no verdict; common practice, no source. */
const leastJobs = 5;
const dayMs = 86_400_000;

/**
 * The months in which a unit had judged jobs, each beside centre and limits by what was expected of these jobs.
 *
 * @returns in the order of time; months without a judged job are left out
 *
 * Source: as `pChart`.
 *
 * @example monthChart({ found: [0, 1], chances: [0.2, 0.2], days: [30, 31] }).map(({ month, isJudged }) => [month, isJudged]) // [[0, false], [1, false]]
 */
export function monthChart({ found, chances, days }: JudgedSeries): MonthPoint[] {
  const months = Array.from(days, monthOf);
  const begins = months.flatMap((month, index) => (month === months[index - 1] ? [] : index));
  const tallies = begins.map((from, at) => {
    const end = begins[at + 1] ?? months.length;
    const expectation = { found: 0, variance: 0 };
    let count = 0;
    for (let job = from; job < end; job += 1) {
      count += found[job];
      expectation.found += chances[job];
      expectation.variance += chances[job] * (1 - chances[job]);
    }
    return { month: months[from], from, end, found: count, jobs: end - from, expectation };
  });
  const points = pChart(tallies)?.points ?? [];
  return points.map((point, at) => {
    const { month, from, end, found: count, jobs } = tallies[at];
    const isJudged = jobs >= leastJobs;
    return { ...point, month, from, end, found: count, isJudged, isOut: point.isOut && isJudged };
  });
}

function monthOf(day: number): number {
  const date = new Date(day * dayMs);
  return (date.getUTCFullYear() - 1970) * 12 + date.getUTCMonth();
}
