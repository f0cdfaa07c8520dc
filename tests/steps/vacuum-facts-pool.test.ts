import { expect, test } from 'vitest';
import type { JobMaterial } from '../../src/facts/job-material.ts';
import { vacuumFacts } from '../../src/facts/vacuum-facts.ts';
import { simulateFleet } from '../../src/simulate/fleet.ts';
import { measuredMaterials } from '../../src/steps/vacuum-facts-pool.ts';

/** The jobs of a small fleet as material, made anew each time: series that were handed over are gone. */
async function* materials(jobs: number): AsyncGenerator<JobMaterial> {
  for (const { job, readings } of simulateFleet({ jobs, seed: 5 }).jobs()) {
    const series =
      readings === undefined ? [] : [{ gauge: null, elapsedS: readings.elapsedS, vacuumPa: readings.vacuumPa }];
    yield { jobId: job.job_id, job, lineSets: [], weighings: [], series, marks: [] };
  }
}

async function measured(threads: number) {
  const results: unknown[] = [];
  for await (const { material, vacuum } of measuredMaterials(materials(400), threads))
    results.push([material.jobId, vacuum]);
  return results;
}

test.each([0, 1, 2])('facts are the same and in the order of the jobs with %i other threads', async (threads) => {
  const alone: unknown[] = [];
  for await (const material of materials(400)) alone.push([material.jobId, vacuumFacts(material)]);
  expect(await measured(threads)).toEqual(alone);
});

test('a source that fails is heard, and the threads end', async () => {
  async function* failing(): AsyncGenerator<JobMaterial> {
    yield* materials(200);
    throw new RangeError('no more');
  }
  const drain = async () => {
    for await (const { material } of measuredMaterials(failing(), 1)) expect(material.jobId).not.toBe('');
  };
  await expect(drain()).rejects.toThrow('no more');
});
