import type { Units } from './fleet-jobs.ts';

const known = new WeakMap<Units, readonly Int32Array[]>();

/**
 * The jobs of each unit in the order of time; worked out once for the same units.
 *
 * @returns by unit, the places of its jobs
 *
 * @example jobsByUnit({ ids: ['a', 'b'], of: Int32Array.of(1, 0, 1) }).map((jobs) => [...jobs]) // [[1], [0, 2]]
 */
export function jobsByUnit(units: Units): readonly Int32Array[] {
  const jobs = known.get(units) ?? sorted(units);
  known.set(units, jobs);
  return jobs;
}

function sorted({ ids, of }: Units): Int32Array[] {
  const counts = new Int32Array(ids.length);
  for (let job = 0; job < of.length; job += 1) if (of[job] >= 0) counts[of[job]] += 1;
  const jobs = Array.from(counts, (count) => new Int32Array(count));
  counts.fill(0);
  for (let job = 0; job < of.length; job += 1) {
    const unit = of[job];
    if (unit < 0) continue;
    jobs[unit][counts[unit]] = job;
    counts[unit] += 1;
  }
  return jobs;
}
