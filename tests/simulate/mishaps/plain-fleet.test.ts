import { createHash } from 'node:crypto';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { simulateFleet } from '../../../src/simulate/fleet.ts';
import { writeBundle } from '../../../src/simulate/write-bundle.ts';

/** SHA-256 of the files of a small fleet, as they were before there were fleets with mishaps. */
const asBefore = {
  'jobs.csv': '141fc2e190d4504cf1341a0eda29a0a01449a914e2a93fad2841285869f31e87',
  'weighings.csv': '76427db8cc6aaea4cb4474973b7c262628b7defa479d14015261a339b3df3bb7',
  'readings.csv': '303eb21a10826a9232226a870b2fc76e07f203791518b5600e479ca5d7648b39',
  'truth.csv': '92afaa5ad90ae719e7f2cce637ab24ab3db4802ed8b561ef08f420a737ad812e',
};

test('a fleet without mishaps is what it was before there were any, to the byte', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'dryhold-plain-'));
  try {
    await writeBundle(simulateFleet({ jobs: 16, seed: 7 }), folder);
    const digests = Object.keys(asBefore).map(async (name) => [
      name,
      createHash('sha256')
        .update(await readFile(join(folder, name)))
        .digest('hex'),
    ]);
    expect(Object.fromEntries(await Promise.all(digests))).toEqual(asBefore);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
});
