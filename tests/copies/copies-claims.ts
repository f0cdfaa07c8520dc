import { type Claim, claim, type ClaimCase } from '../truth/claim.ts';
import { type CopiedFleet, plantedJobs } from './copied-fleet.ts';
import { copyKinds } from '../../src/simulate/mishaps/copy-kinds.ts';
import type { CopiesRun } from './copies-run.ts';
import { honestLog, kindOf } from './honest-log.ts';

/** What is asked of the kinds that the goals name; the others are harder and only measured. */
const goals: Readonly<Record<string, number>> = {
  exact: 0.95,
  'trimmed to 60 %': 0.95,
  'shifted in time': 0.95,
  'scaled by up to 3 %': 0.95,
  're-noised': 0.95,
};

/** How many copies are found, of curves that show any noise, and how many honest jobs are matched. */
export function copiesClaims(fleet: CopiedFleet, run: CopiesRun): Claim[] {
  const found = new Set(run.pairs.map(({ one, two, column }) => `${one} ${two} ${column}`));
  const planted = plantedJobs(fleet);
  const columns = ['vacuum_pa', 'test_pressure_pa'] as const;
  const cases = (column: string, kind: string): ClaimCase[] =>
    planted
      .filter((copy) => copy.kind === kind && run.printed.has(`${copy.of} ${column}`))
      .map((copy) => {
        const isFound = found.has(`${copy.of} ${copy.number} ${column}`);
        return {
          plan: { seed: fleet.seed, number: copy.of, kind: kindOf(copy.of) },
          value: isFound,
          badness: isFound ? 0 : 1,
          says: `${kind}, planted as ${copy.number}, not found`,
        };
      });
  const words = { vacuum_pa: 'vacuum', test_pressure_pa: 'pressure test' } as const;
  return [
    ...columns.flatMap((column) =>
      Object.keys(copyKinds).map((kind) =>
        claim(`${words[column]}, ${kind}: found`, cases(column, kind), goalOf(column, kind)),
      ),
    ),
    falseAlarms(fleet, run),
  ];
}

function goalOf(column: string, kind: string) {
  const least = column === 'vacuum_pa' ? goals[kind] : undefined;
  return least === undefined ? {} : { least };
}

/** Honest jobs of which a curve was matched with another honest job's. */
function falseAlarms(fleet: CopiedFleet, run: CopiesRun): Claim {
  const honest = run.pairs.filter(({ one, two }) => one <= fleet.jobs && two <= fleet.jobs);
  const accused = new Set(honest.flatMap(({ one, two }) => [one, two]));
  return {
    what: 'honest jobs matched with another honest job',
    cases: fleet.jobs,
    figure: accused.size / fleet.jobs,
    measured: `${accused.size} of ${fleet.jobs}`,
    goal: '≤ 1 of 100,000',
    met: accused.size / fleet.jobs <= 1e-5,
    bad: honest.map(({ one, two, column, sigma }) => ({
      plan: { seed: fleet.seed, number: one, kind: kindOf(one) },
      value: false,
      badness: sigma,
      says: `${column} matched with ${two} (${kindOf(two)}) by ${sigma.toFixed(1)} standard deviations`,
    })),
  };
}

/** Of the jobs with a pressure, the share with a curve that could be compared; from the first jobs of the fleet. */
export function comparedShare(fleet: CopiedFleet, run: CopiesRun, most = 3000): Record<string, number> {
  const counts: Record<string, [compared: number, all: number]> = {};
  for (let number = 1; number <= Math.min(most, fleet.jobs); number += 1) {
    for (const { column } of honestLog(fleet.seed, number)) {
      const count = (counts[`${column}, ${kindOf(number)}`] ??= [0, 0]);
      count[1] += 1;
      if (run.printed.has(`${number} ${column}`)) count[0] += 1;
    }
  }
  return Object.fromEntries(Object.entries(counts).map(([name, [compared, all]]) => [name, compared / all]));
}
