import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { goodExample } from '../../src/fleet/coaching/good-example.ts';
import type { FleetJobs } from '../../src/fleet/fleet-jobs.ts';
import { skillOutcome } from '../../src/fleet/skill.ts';
import { jobsOf } from './any-fleet.ts';

/** A job of a fleet as it counts for an example. */
const anyJob = fc.record({
  outcome: fc.constantFrom(skillOutcome.clean, skillOutcome.clean, skillOutcome.found, skillOutcome.missing),
  refrigerant: fc.integer({ min: 0, max: 2 }),
  kindOfWork: fc.integer({ min: 0, max: 2 }),
  technician: fc.integer({ min: -1, max: 1 }),
  day: fc.integer({ min: 0, max: 5 }),
  isShown: fc.boolean(),
});
type AnyJob = typeof anyJob extends fc.Arbitrary<infer Job> ? Job : never;

function fleetOf(all: readonly AnyJob[]): FleetJobs {
  const jobs = jobsOf(
    all.map(() => []),
    { technician: { ids: ['a', 'b'], of: Int32Array.from(all, ({ technician }) => technician) } },
  );
  return {
    ...jobs,
    days: Int32Array.from(all, ({ day }) => day),
    mix: {
      ...jobs.mix,
      refrigerant: Uint8Array.from(all, ({ refrigerant }) => refrigerant),
      work_type: Uint8Array.from(all, ({ kindOfWork }) => kindOfWork),
    },
  };
}

/** How good an example one job is for another, the most weighty first. */
function worth(other: AnyJob, job: AnyJob): number[] {
  const same = (['refrigerant', 'kindOfWork'] as const).filter((of) => job[of] !== 0 && other[of] === job[of]);
  return [same.length, Number(other.technician === job.technician), -Math.abs(other.day - job.day)];
}

function isBelow(one: readonly number[], other: readonly number[]): boolean {
  const at = one.findIndex((value, place) => value !== other[place]);
  return at >= 0 && one[at] < other[at];
}

const find = (all: readonly AnyJob[], job: number) =>
  goodExample(
    fleetOf(all),
    Uint8Array.from(all, ({ outcome }) => outcome),
    job,
    (other) => all[other].isShown,
  );

describe('a good example', () => {
  test('is the first of those that no shown job on which nothing was found is better than', () => {
    fc.assert(
      fc.property(fc.array(anyJob, { minLength: 1, maxLength: 12 }), (all) => {
        const job = 0;
        const candidates = all.flatMap(({ outcome, isShown }, at) =>
          outcome === skillOutcome.clean && isShown ? [at] : [],
        );
        const best = candidates.find(
          (at) => !candidates.some((other) => isBelow(worth(all[at], all[job]), worth(all[other], all[job]))),
        );
        expect(find(all, job)?.job).toBe(best);
      }),
    );
  });

  test('tells in what it is the same', () => {
    const job = { outcome: skillOutcome.found, refrigerant: 1, kindOfWork: 0, technician: 0, day: 3, isShown: true };
    const other = { ...job, outcome: skillOutcome.clean };
    expect(find([job, other], 0)).toEqual({ job: 1, alike: ['refrigerant'] });
    expect(find([job, { ...other, refrigerant: 2 }], 0)).toEqual({ job: 1, alike: [] });
    expect(find([job, { ...other, isShown: false }], 0)).toBeUndefined();
  });
});
