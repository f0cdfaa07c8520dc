import type { JobCurve } from '../../src/facts/recording/job-curves.ts';
import { Random } from '../../src/numerics/random.ts';
import { type HonestCurve, honestLog } from './honest-log.ts';
import { copyKinds, copyOf } from '../../src/simulate/mishaps/copy-kinds.ts';

/** A fleet with copies in it: honest jobs by number from 1, then planted ones. */
export interface CopiedFleet {
  readonly seed: number;
  readonly jobs: number;
  /** How many copies of each kind. */
  readonly planted: number;
}

/** One planted copy: the curve of which honest job it is, and what was done to it. */
export interface Planted {
  readonly number: number;
  readonly of: number;
  readonly kind: string;
}

export function plantedJobs({ seed, jobs, planted }: CopiedFleet): Planted[] {
  const random = new Random(seed, 1_700_000_000);
  return Object.keys(copyKinds).flatMap((kind, index) =>
    Array.from({ length: planted }, (_, at) => ({
      number: jobs + 1 + index * planted + at,
      of: 1 + Math.floor(random.uniform(0, jobs)),
      kind,
    })),
  );
}

/** The curves of a job of the fleet, honest or planted. */
export function curvesOf(fleet: CopiedFleet, number: number): JobCurve[] {
  if (number <= fleet.jobs) return honestLog(fleet.seed, number);
  const planted = plantedJobs(fleet)[number - fleet.jobs - 1];
  return honestLog(fleet.seed, planted.of).map((curve: HonestCurve, index) =>
    copyOf(curve, planted.kind, new Random(fleet.seed, 1_800_000_000 + 2 * number + index)),
  );
}
