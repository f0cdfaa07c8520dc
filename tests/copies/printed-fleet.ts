import { once } from 'node:events';
import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { CopiedFleet } from './copied-fleet.ts';
import type { PrintedJob } from './copies-worker.ts';

const batchJobs = 200;

/** The prints of the jobs of a fleet from `from` to before `end`, in the order of their numbers, made on all cores. */
export async function* printedFleet(fleet: CopiedFleet, from: number, end: number): AsyncGenerator<PrintedJob[]> {
  const workers = Array.from(
    { length: availableParallelism() },
    () => new Worker(new URL('copies-worker.ts', import.meta.url), { workerData: fleet }),
  );
  const ask = async (worker: Worker, first: number): Promise<PrintedJob[]> => {
    worker.postMessage({ from: first, end: Math.min(end, first + batchJobs) });
    const [printed] = await once(worker, 'message');
    return printed as PrintedJob[];
  };
  try {
    const underWay: Promise<PrintedJob[]>[] = [];
    let next = from;
    const begin = (worker: Worker) => {
      if (next >= end) return;
      const asked = ask(worker, next);
      next += batchJobs;
      underWay.push(asked);
      void asked.then(
        () => begin(worker),
        () => undefined,
      );
    };
    for (const worker of workers) begin(worker);
    while (underWay.length > 0) yield (await underWay.shift()) ?? [];
  } finally {
    await Promise.all(workers.map((worker) => worker.terminate()));
  }
}
