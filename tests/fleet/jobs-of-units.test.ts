import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type FleetJobs, type Grouping, groupings } from '../../src/fleet/fleet-jobs.ts';
import { jobsByUnit } from '../../src/fleet/jobs-by-unit.ts';
import { skillOutcome } from '../../src/fleet/skill.ts';
import { firstAlike, skillCells, unitCombinations } from '../../src/fleet/skill-cells.ts';
import { unitCounts } from '../../src/fleet/unit-counts.ts';
import { anyFleet, anyUnits, jobsOf } from './any-fleet.ts';

/** Units of some jobs, with what a skill came to in each and what was expected; NaN where it was not judged. */
const anyJudged = fc
  .array(fc.tuple(fc.constantFrom(0, 1, 2, 3), fc.double({ min: 1e-12, max: 1 - 1e-9, noNaN: true })), {
    maxLength: 40,
  })
  .map((rows) => ({
    outcomes: Uint8Array.from(rows, ([outcome]) => outcome),
    chances: Float64Array.from(rows, ([outcome, chance]) => (outcome < skillOutcome.clean ? Number.NaN : chance)),
  }));
const sum = (values: Iterable<number>): number => [...values].reduce((total, value) => total + value, 0);
const count = (outcomes: Uint8Array, ...wanted: number[]) =>
  outcomes.filter((outcome) => wanted.includes(outcome)).length;

describe('jobsByUnit', () => {
  test('gives every job that names a unit to that unit, once, in the order of time', () => {
    fc.assert(
      fc.property(fc.nat(60).chain(anyUnits), (units) => {
        const by = jobsByUnit(units);
        expect(by).toHaveLength(units.ids.length);
        for (const [unit, jobs] of by.entries()) {
          for (const job of jobs) expect(units.of[job]).toBe(unit);
          expect([...jobs]).toEqual([...new Set(jobs)].toSorted((a, b) => a - b));
        }
        expect(sum(by.map((jobs) => jobs.length))).toBe(units.of.filter((unit) => unit >= 0).length);
      }),
    );
  });
});

describe('unitCounts', () => {
  test('add up to those of all jobs that name a unit, whatever the units', () => {
    fc.assert(
      fc.property(
        anyJudged.chain(({ outcomes }) => anyUnits(outcomes.length).map((units) => ({ outcomes, units }))),
        ({ outcomes, units }) => {
          const tallies = unitCounts(units, outcomes);
          const all = { ids: ['all'], of: units.of.map((unit) => Math.min(0, unit)) };
          const [whole] = unitCounts(all, outcomes);
          expect(tallies).toHaveLength(units.ids.length);
          for (const name of ['found', 'jobs', 'notEvaluated', 'missing'] as const)
            expect(sum(tallies.map((tally) => tally[name]))).toBe(whole[name]);
        },
      ),
    );
  });

  test('count what came of the jobs', () => {
    fc.assert(
      fc.property(anyJudged, ({ outcomes }) => {
        const [all] = unitCounts({ ids: ['all'], of: new Int32Array(outcomes.length) }, outcomes);
        expect(all).toEqual({
          found: count(outcomes, skillOutcome.found),
          jobs: count(outcomes, skillOutcome.found, skillOutcome.clean),
          notEvaluated: count(outcomes, skillOutcome.notEvaluated),
          missing: count(outcomes, skillOutcome.missing),
        });
      }),
    );
  });
});

describe('unitCombinations', () => {
  test('two jobs share one exactly where they share all units', () => {
    fc.assert(
      fc.property(anyFleet, fc.subarray([...groupings], { minLength: 1 }), ({ jobs }, of) => {
        const { of: places, units, groupings: told } = unitCombinations(jobs, of);
        expect(told).toEqual(of);
        const key = (job: number) => of.map((grouping) => jobs.units[grouping].of[job]).join(' ');
        const placeOf = new Map<string, number>();
        for (let job = 0; job < jobs.count; job += 1) {
          expect(units.map((unit) => unit[places[job]]).join(' ')).toBe(key(job));
          expect(placeOf.get(key(job)) ?? places[job]).toBe(places[job]);
          placeOf.set(key(job), places[job]);
        }
        if (jobs.count > 0) expect(units[0]).toHaveLength(placeOf.size);
      }),
    );
  });

  test('are worked out once for each set of groupings', () => {
    const jobs = jobsOf([[], []]);
    expect(unitCombinations(jobs, ['crew', 'gauge'])).toBe(unitCombinations(jobs, ['crew', 'gauge']));
    expect(unitCombinations(jobs, ['crew', 'gauge'])).not.toBe(unitCombinations(jobs, ['crew']));
    expect(unitCombinations(jobsOf([[], []]), ['crew', 'gauge'])).not.toBe(unitCombinations(jobs, ['crew', 'gauge']));
  });
});

describe('skillCells', () => {
  const anyCells = anyJudged.chain(({ outcomes, chances }) =>
    fc.tuple(anyUnits(outcomes.length), anyUnits(outcomes.length)).map(([technician, crew]) => ({
      outcomes,
      chances,
      jobs: jobsOf(
        Array.from(outcomes, () => []),
        { technician, crew },
      ),
    })),
  );
  const of: readonly Grouping[] = ['technician', 'crew'];
  const cellsOf = (jobs: FleetJobs, outcomes: Uint8Array, chances: Float64Array) =>
    skillCells(jobs, unitCombinations(jobs, of), outcomes, chances);

  test('keep the judged jobs, what was found of them and what was expected, of every unit', () => {
    fc.assert(
      fc.property(anyCells, ({ jobs, outcomes, chances }) => {
        const cells = cellsOf(jobs, outcomes, chances);
        for (const [at, grouping] of of.entries()) {
          const { ids, of: units } = jobs.units[grouping];
          const counts = unitCounts({ ids: ['none', ...ids], of: units.map((unit) => unit + 1) }, outcomes);
          for (const [unit, { found, jobs: judgedJobs }] of counts.entries()) {
            const own = (values: Float64Array) => values.filter((_, row) => cells.units[at][row] === unit - 1);
            expect(sum(own(cells.found))).toBe(found);
            expect(sum(own(cells.jobs))).toBe(judgedJobs);
            const expected = cells.jobs.map((judged, row) => judged / (1 + Math.exp(-cells.expectedLogit[row])));
            const ofUnit = chances.filter((chance, job) => units[job] === unit - 1 && !Number.isNaN(chance));
            expect(sum(own(expected))).toBeCloseTo(sum(ofUnit), 6);
          }
          expect(cells.counts[at]).toBe(ids.length);
        }
        expect(cells.jobs.every((judged) => judged > 0)).toBe(true);
      }),
    );
  });

  test('join jobs of the same units that are expected alike, and no others', () => {
    const outcomes = Uint8Array.of(2, 3, 2, 3, 2, 0);
    // Odds of 1, 1.1 and, twice, 20; the fourth of another crew.
    const chances = Float64Array.of(0.5, 1.1 / 2.1, 20 / 21, 20 / 21, 20 / 21, Number.NaN);
    const one = { ids: ['a', 'b'], of: Int32Array.of(0, 0, 0, 0, 0, 0) };
    const crew = { ids: ['x', 'y'], of: Int32Array.of(0, 0, 0, 1, 0, 1) };
    const cells = cellsOf(
      jobsOf(
        Array.from(outcomes, () => []),
        { technician: one, crew },
      ),
      outcomes,
      chances,
    );
    const rows = Array.from(cells.jobs, (judged, row) => [cells.units[1][row], judged, cells.found[row]].join(' '));
    expect(rows.toSorted()).toEqual(['0 2 0', '0 2 1', '1 1 1']);
  });
});

describe('firstAlike', () => {
  const anyGroupings = fc
    .nat(12)
    .chain((cells) =>
      fc.array(fc.array(fc.integer({ min: -1, max: 2 }), { minLength: cells, maxLength: cells }), { maxLength: 4 }),
    )
    .map((all) => all.map((units) => Int32Array.from(units)));

  /** Which cells are in the same unit, and which in none. */
  const partition = (units: Int32Array) =>
    JSON.stringify(Array.from(units, (unit) => (unit < 0 ? -1 : units.indexOf(unit))));

  test('is the first grouping that parts the cells in the same way', () => {
    fc.assert(
      fc.property(anyGroupings, (all) => {
        const partitions = all.map(partition);
        expect(firstAlike(all)).toEqual(partitions.map((own) => partitions.indexOf(own)));
      }),
      { numRuns: 500 },
    );
  });

  test('a grouping that some cells name no unit of is not like one of which they do', () => {
    expect(firstAlike([Int32Array.of(0, 1), Int32Array.of(0, -1)])).toEqual([0, 1]);
    expect(firstAlike([Int32Array.of(1, -1, 1), Int32Array.of(0, -1, 0)])).toEqual([0, 0]);
  });
});
