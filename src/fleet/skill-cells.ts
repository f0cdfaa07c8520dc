import type { CrossedCells } from './statistics/crossed-effects.ts';
import type { FleetJobs, Grouping } from './fleet-jobs.ts';
import { skillOutcome } from './skill.ts';

/** Which technician, crew and instruments came together in each job. */
export interface UnitCombinations {
  readonly groupings: readonly Grouping[];
  /** By job, the place of its combination. */
  readonly of: Int32Array;
  /** By grouping, the unit of each combination; −1 for none. */
  readonly units: readonly Int32Array[];
}

/** Cells join jobs whose expected logit is alike to this. */
const binWidth = 0.5;
const bins = 40;

const known = new WeakMap<FleetJobs, Map<string, UnitCombinations>>();

/** All combinations of units that some jobs have; worked out once for each set of groupings. */
export function unitCombinations(jobs: FleetJobs, groupings: readonly Grouping[]): UnitCombinations {
  const ofJobs = known.get(jobs) ?? new Map<string, UnitCombinations>();
  known.set(jobs, ofJobs);
  const key = groupings.join(' ');
  const combinations = ofJobs.get(key) ?? combined(jobs, groupings);
  ofJobs.set(key, combinations);
  return combinations;
}

function combined(jobs: FleetJobs, groupings: readonly Grouping[]): UnitCombinations {
  let of = new Int32Array(jobs.count);
  let count = 1;
  for (const grouping of groupings) {
    const { ids, of: units } = jobs.units[grouping];
    const places = new Map<number, number>();
    of = of.map((before, job) => {
      const key = before * (ids.length + 1) + units[job] + 1;
      const place = places.get(key) ?? places.size;
      if (place === places.size) places.set(key, place);
      return place;
    });
    count = places.size;
  }
  const units = groupings.map((grouping) => {
    const found = new Int32Array(count);
    for (let job = 0; job < jobs.count; job += 1) found[of[job]] = jobs.units[grouping].of[job];
    return found;
  });
  return { groupings, of, units };
}

/** Judged jobs of a skill that share all units, and what is expected of them, joined. */
export function skillCells(
  jobs: FleetJobs,
  combinations: UnitCombinations,
  outcomes: Uint8Array,
  chances: Float64Array,
): CrossedCells {
  // Where each combination and bin has its cell, from 1; 0 for none yet.
  const cells = new Uint32Array((combinations.units[0]?.length ?? 1) * bins);
  const [found, judged, expected] = [0, 1, 2].map(() => new Float64Array(Math.min(jobs.count, cells.length)));
  const of = new Int32Array(found.length);
  let count = 0;
  for (let job = 0; job < jobs.count; job += 1) {
    if (outcomes[job] < skillOutcome.clean) continue;
    const logit = Math.log(chances[job] / (1 - chances[job]));
    const bin = Math.min(bins - 1, Math.max(0, Math.round(logit / binWidth) + bins / 2));
    const place = combinations.of[job] * bins + bin;
    if (cells[place] === 0) {
      of[count] = combinations.of[job];
      count += 1;
      cells[place] = count;
    }
    const cell = cells[place] - 1;
    judged[cell] += 1;
    expected[cell] += chances[job];
    if (outcomes[job] === skillOutcome.found) found[cell] += 1;
  }
  return {
    found: found.slice(0, count),
    jobs: judged.slice(0, count),
    expectedLogit: Float64Array.from({ length: count }, (_, cell) =>
      Math.log(expected[cell] / (judged[cell] - expected[cell])),
    ),
    units: combinations.units.map((units) => Int32Array.from({ length: count }, (_, cell) => units[of[cell]])),
    counts: combinations.groupings.map((grouping) => jobs.units[grouping].ids.length),
  };
}

/**
 * Which groupings say the same of every cell, as a crew and its only pump: each grouping's first that does.
 *
 * @example firstAlike([Int32Array.of(0, 1, 2), Int32Array.of(0, 0, 1), Int32Array.of(1, 1, 0)]) // [0, 1, 1]
 */
export function firstAlike(units: readonly Int32Array[]): number[] {
  return units.map((own, at) => units.findIndex((other, before) => before === at || isAlike(own, other)));
}

function isAlike(one: Int32Array, other: Int32Array): boolean {
  const [there, back] = [new Map<number, number>(), new Map<number, number>()];
  return one.every((unit, cell) => {
    if (!there.has(unit)) there.set(unit, other[cell]);
    if (!back.has(other[cell])) back.set(other[cell], unit);
    return there.get(unit) === other[cell] && back.get(other[cell]) === unit && unit < 0 === other[cell] < 0;
  });
}
