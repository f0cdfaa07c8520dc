import fc from 'fast-check';
import { checks } from '../../src/checks/checks.ts';
import { type FleetJobs, type Grouping, groupings, type Units } from '../../src/fleet/fleet-jobs.ts';
import { type MixFactorName, mixFactors } from '../../src/fleet/job-mix.ts';

export const checkIds = checks.map(({ id }) => id);

/** What a check said of a job. */
export const anyOutcome = fc.constantFrom('pass', 'found', 'missing', 'not-evaluated');
export type AnyOutcome = 'pass' | 'found' | 'missing' | 'not-evaluated';

/** Units of so many jobs, some of which have none, and some units no job. */
export const anyUnits = (jobs: number): fc.Arbitrary<Units> =>
  fc.integer({ min: 0, max: 5 }).chain((count) =>
    fc.array(fc.integer({ min: -1, max: count - 1 }), { minLength: jobs, maxLength: jobs }).map((of) => ({
      ids: Array.from({ length: count }, (_, at) => `unit-${at}`),
      of: Int32Array.from(of),
    })),
  );

/** Jobs with these outcomes, by job and by check. */
export function jobsOf(
  outcomes: readonly (readonly AnyOutcome[])[],
  units: Partial<Record<Grouping, Units>> = {},
): FleetJobs {
  const count = outcomes.length;
  const [judged, found, missing] = [0, 0, 0].map(() => new Uint32Array(2 * count));
  for (const [job, ofJob] of outcomes.entries())
    for (const [check, outcome] of ofJob.entries()) {
      const [at, bit] = [2 * job + (check >> 5), 1 << (check & 31)];
      if (outcome === 'pass' || outcome === 'found') judged[at] |= bit;
      if (outcome === 'found') found[at] |= bit;
      if (outcome === 'missing') missing[at] |= bit;
    }
  const nobody: Units = { ids: [], of: new Int32Array(count).fill(-1) };
  return {
    count,
    days: Int32Array.from({ length: count }, (_, job) => 20_000 + job),
    units: Object.fromEntries(groupings.map((name) => [name, units[name] ?? nobody])) as Record<Grouping, Units>,
    mix: Object.fromEntries(mixFactors.map(({ name }) => [name, new Uint8Array(count)])) as Record<
      MixFactorName,
      Uint8Array
    >,
    outcomes: { judged, found, missing, checkIds },
  };
}

/** Jobs of any outcomes and units. */
export const anyFleet: fc.Arbitrary<{ jobs: FleetJobs; outcomes: readonly (readonly AnyOutcome[])[] }> = fc
  .array(fc.array(anyOutcome, { minLength: checkIds.length, maxLength: checkIds.length }), { maxLength: 25 })
  .chain((outcomes) =>
    fc.tuple(...groupings.map(() => anyUnits(outcomes.length))).map((units) => ({
      outcomes: outcomes as AnyOutcome[][],
      jobs: jobsOf(outcomes as AnyOutcome[][], Object.fromEntries(groupings.map((name, at) => [name, units[at]]))),
    })),
  );
