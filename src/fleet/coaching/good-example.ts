import type { FleetJobs } from '../fleet-jobs.ts';
import { jobFactorNames, mixFactors } from '../job-mix.ts';
import { skillOutcome } from '../skill.ts';

/** A job that went well, and in what it is like another. */
export interface GoodExample {
  /** Its place among the jobs of the fleet. */
  readonly job: number;
  /** Titles of what is the same, such as "refrigerant". */
  readonly alike: readonly string[];
}

/**
 * The job most like another on which a skill was judged and nothing found: of those alike, one of the same person, since what one has done
 * one can do again; then the nearest in time.
 *
 * @param outcomes of every job in the skill, as `skillOutcomes` gives them
 * @param isShown whether a job has what is to be shown
 * @returns undefined where no job will do
 */
export function goodExample(
  jobs: FleetJobs,
  outcomes: Uint8Array,
  job: number,
  isShown: (job: number) => boolean,
): GoodExample | undefined {
  const { of: kindOf, levels } = jobKinds(jobs);
  const own = levels[kindOf[job]];
  const isSame = (kind: readonly number[], factor: number): boolean =>
    own[factor] !== 0 && kind[factor] === own[factor];
  const same = Uint8Array.from(levels, (kind) => factors.filter((_, factor) => isSame(kind, factor)).length);
  const { of } = jobs.units.technician;
  let best = { job: -1, same: -1, isOwn: false, days: Number.POSITIVE_INFINITY };
  for (let other = 0; other < jobs.count; other += 1) {
    const alike = same[kindOf[other]];
    if (outcomes[other] !== skillOutcome.clean || alike < best.same) continue;
    const isOwn = of[other] === of[job];
    const days = Math.abs(jobs.days[other] - jobs.days[job]);
    const isBetter = alike > best.same || (isOwn === best.isOwn ? days < best.days : isOwn);
    if (isBetter && isShown(other)) best = { job: other, same: alike, isOwn, days };
  }
  if (best.job < 0) return undefined;
  const kind = levels[kindOf[best.job]];
  return { job: best.job, alike: factors.filter((_, factor) => isSame(kind, factor)).map(({ title }) => title) };
}

const factors = mixFactors.filter(({ name }) => jobFactorNames.some((each) => each === name));

/** Jobs of one kind have the same level of every factor. */
interface JobKinds {
  /** By job. */
  readonly of: Int32Array;
  /** By kind, the level of each factor. */
  readonly levels: readonly (readonly number[])[];
}

const known = new WeakMap<FleetJobs, JobKinds>();

/** The kinds of a fleet's jobs; worked out once. */
function jobKinds(jobs: FleetJobs): JobKinds {
  const kinds = known.get(jobs) ?? kindsOf(jobs);
  known.set(jobs, kinds);
  return kinds;
}

function kindsOf({ count, mix }: FleetJobs): JobKinds {
  const ofFactors = factors.map(({ name }) => mix[name as keyof typeof mix]);
  const kinds = new Map<number, number>();
  const of = new Int32Array(count);
  const levels: number[][] = [];
  for (let job = 0; job < count; job += 1) {
    let key = 0;
    for (const own of ofFactors) key = 256 * key + own[job];
    const kind = kinds.get(key) ?? kinds.size;
    of[job] = kind;
    if (kind < kinds.size) continue;
    kinds.set(key, kind);
    levels.push(ofFactors.map((own) => own[job]));
  }
  return { of, levels };
}
