import { type PChartPoint, pChart, type PeriodTally } from './p-chart.ts';

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

/** Judged jobs of a calendar month, and what was expected of them. */
export type MonthTally = PeriodTally &
  Required<Pick<PeriodTally, 'expectation'>> &
  Pick<MonthPoint, 'month' | 'from' | 'end'>;

/**
 * The months in which a unit had judged jobs, in the order of time; months without a judged job are left out.
 *
 * @example monthTallies({ found: [0, 1], chances: [0.2, 0.2], days: [30, 31] }).map(({ month, found }) => [month, found]) // [[0, 0], [1, 1]]
 */
export function monthTallies({ found, chances, days }: JudgedSeries): MonthTally[] {
  const tallies: MonthTally[] = [];
  for (let from = 0; from < days.length; ) {
    const { month, endDay } = monthOf(days[from]);
    const expectation = { found: 0, variance: 0 };
    let [count, end] = [0, from];
    for (; end < days.length && days[end] < endDay; end += 1) {
      count += found[end];
      expectation.found += chances[end];
      expectation.variance += chances[end] * (1 - chances[end]);
    }
    tallies.push({ month, from, end, found: count, jobs: end - from, expectation });
    from = end;
  }
  return tallies;
}

/**
 * Months beside centre and limits by what was expected of their jobs.
 *
 * Source: as `pChart`.
 *
 * @example monthPoints(monthTallies({ found: [0, 1], chances: [0.2, 0.2], days: [30, 31] })).map(({ isJudged }) => isJudged) // [false, false]
 */
export function monthPoints(tallies: readonly MonthTally[]): MonthPoint[] {
  const points = pChart(tallies)?.points ?? [];
  return points.map((point, at) => {
    const { month, from, end, found, jobs } = tallies[at];
    const isJudged = jobs >= leastJobs;
    return { ...point, month, from, end, found, isJudged, isOut: point.isOut && isJudged };
  });
}

/** The month of a day, and the first day of the next. */
function monthOf(day: number): { month: number; endDay: number } {
  const date = new Date(day * dayMs);
  const [year, month] = [date.getUTCFullYear(), date.getUTCMonth()];
  return { month: (year - 1970) * 12 + month, endDay: Date.UTC(year, month + 1) / dayMs };
}
