import type { Policy } from '../../checks/policy.ts';
import { takePart } from '../../store/judged-part.ts';
import type { Store } from '../../store/store.ts';
import { judgedParts } from './judged-parts.ts';
import type { PlacelessTask } from './part-tasks.ts';

/** How jobs are judged, and who is told. */
export interface Judging {
  readonly policy: Policy;
  /** How many there are. */
  readonly jobs: number;
  /** Told how many more are done. */
  readonly onJobs: (jobs: number) => void;
}

/** Judges tasks and takes in what is found. */
export async function takeParts(
  store: Store,
  tasks: AsyncIterable<PlacelessTask>,
  { policy, jobs, onJobs }: Judging,
): Promise<void> {
  if (jobs === 0) return;
  for await (const part of judgedParts(store, policy, tasks, jobs)) {
    await takePart(store, part.folder);
    onJobs(part.jobs);
  }
}
