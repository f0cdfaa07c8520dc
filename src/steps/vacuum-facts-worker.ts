import { parentPort } from 'node:worker_threads';
import { SegmentReader } from '../store/segment-reader.ts';
import { type SliceTask, sliceFacts } from './slice-facts.ts';

// A thread of `VacuumFactsPool`: slices in, the vacuum facts of their jobs out, in the order of asking.
const reader = new SegmentReader();
let last: Promise<unknown> = Promise.resolve();

parentPort?.on('message', (task: SliceTask) => {
  last = last
    .then(() => sliceFacts(reader, task))
    .then((facts) => parentPort?.postMessage({ facts }))
    .catch((error: unknown) =>
      parentPort?.postMessage({ problem: error instanceof Error ? error.message : String(error) }),
    );
});
