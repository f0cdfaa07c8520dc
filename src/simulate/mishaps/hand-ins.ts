import type { SimulatedJob } from '../job.ts';
import { CopyPool } from './copy-pool.ts';
import type { JobMishaps } from './draw-mishaps.ts';
import { withFault } from './hand-in-fault.ts';

/** What becomes of the jobs' logs on their way to the office, job after job. */
export class HandIns {
  readonly #pool = new CopyPool();

  /** The job as it is handed in; the job itself where nothing can happen to it, or is not to. */
  of(job: SimulatedJob, { handsIn, random }: JobMishaps): SimulatedJob {
    const handedIn =
      handsIn === 'copy'
        ? this.#pool.copiedInto(job, random)
        : handsIn === 'fault'
          ? withFault(job, random)
          : undefined;
    // A copy is always of what was truly measured.
    if (handedIn === undefined) this.#pool.add(job);
    return handedIn ?? job;
  }
}
