import type { Goal } from './bench-row.ts';

/** What the toolkit is to come up to, on two cores. Rates are asked of fleets that take longer than a start of the program. */
export const goals = {
  judgeRate: { figure: 'rowsPerS', atLeast: 20e6 },
  judgeOverScan: { figure: 'ratio', atMost: 10 },
  polarsOverJudge: { figure: 'ratio', atLeast: 3 },
  ingestOfBare: { figure: 'ratio', atLeast: 0.5 },
  judgeMemory: { figure: 'peakMiB', atMost: 1536 },
  growth: { figure: 'ratio', atMost: 10.5 },
  dayAdded: { figure: 'seconds', atMost: 2 },
  startUp: { figure: 'seconds', atMost: 0.3 },
} as const satisfies Record<string, Goal>;

/** Fewer readings than that say more of the start than of the work: such rows have no goal for their speed. */
export const fewestForSpeed = 5e6;
