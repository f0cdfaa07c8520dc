import type { Cost } from './measured-process.ts';

/** What a figure should come to. */
export interface Goal {
  readonly figure: 'seconds' | 'rowsPerS' | 'peakMiB' | 'ratio';
  readonly atLeast?: number;
  readonly atMost?: number;
}

/** A line of the table: something measured, or two measured things beside each other. */
export interface BenchRow {
  readonly what: string;
  /** Readings that it went over. */
  readonly readings?: number;
  readonly seconds?: number;
  /** Of all threads. */
  readonly cpuSeconds?: number;
  readonly rowsPerS?: number;
  /** The most memory that the process held [MiB]. */
  readonly peakMiB?: number;
  readonly ratio?: number;
  readonly goal?: Goal;
  /** Why there is no figure. */
  readonly skipped?: string;
}

/** Whether a row comes up to its goal; undefined where it has none, or no figure. */
export function meetsGoal(row: BenchRow): boolean | undefined {
  const { goal } = row;
  const figure = goal && row[goal.figure];
  if (goal === undefined || figure === undefined) return undefined;
  return figure >= (goal.atLeast ?? Number.NEGATIVE_INFINITY) && figure <= (goal.atMost ?? Number.POSITIVE_INFINITY);
}

/** The row of something that took that. */
export function measuredRow(what: string, cost: Cost, readings?: number, goal?: Goal): BenchRow {
  return {
    what,
    ...cost,
    ...(readings === undefined ? {} : { readings, rowsPerS: readings / cost.seconds }),
    ...(goal === undefined ? {} : { goal }),
  };
}
