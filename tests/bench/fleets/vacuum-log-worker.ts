import { parentPort, workerData } from 'node:worker_threads';
import type { Job } from '../../../src/records/tables/jobs.ts';
import { ReadingWriter } from './reading-writer.ts';
import { jobIdOf, vacuumJob, type VacuumLogFleet } from './vacuum-job.ts';

/** Neighbouring jobs, and the file for their readings. */
export interface FleetPart {
  readonly from: number;
  readonly end: number;
  readonly path: string;
}

/** What became of a part. */
export interface DrawnPart {
  readonly jobs: readonly Job[];
  readonly readings: number;
}

// A thread of `drawVacuumLogs`: parts in, their rows of `jobs` out, their readings into files.
const fleet = workerData as VacuumLogFleet;
const writer = await ReadingWriter.begin();

parentPort?.on('message', (part: FleetPart | 'end') => {
  if (part === 'end') {
    writer.close();
    parentPort?.close();
  } else void drawn(part).then((done) => parentPort?.postMessage(done));
});

async function drawn({ from, end, path }: FleetPart): Promise<DrawnPart> {
  const jobIds = Array.from({ length: end - from }, (_, place) => jobIdOf(from + place));
  const jobs: Job[] = [];
  function* logs() {
    for (let number = from; number < end; number += 1) {
      const { job, readings } = vacuumJob(fleet, number);
      jobs.push(job);
      if (readings !== undefined) yield { place: number - from, readings };
    }
  }
  const readings = await writer.write(path, jobIds, logs());
  return { jobs, readings };
}
