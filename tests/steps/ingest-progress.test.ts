import { statSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { simulateFleet } from '../../src/simulate/fleet.ts';
import { writeBundle } from '../../src/simulate/write-bundle.ts';
import { type IngestProgress, ingest } from '../../src/steps/ingest.ts';
import { inStore, tempFolder } from '../store/temp-store.ts';

test('progress names every file, only grows, and ends at all bytes', async () => {
  const folder = tempFolder();
  const bundle = join(folder, 'bundle');
  await writeBundle(simulateFleet({ jobs: 300, seed: 2 }), bundle);
  const told: Parameters<IngestProgress>[0][] = [];
  const { sources } = await inStore(join(folder, 'store'), (store) =>
    ingest(store, [bundle], { onProgress: (done) => told.push(done) }),
  );
  expect(new Set(told.map(({ file }) => file))).toEqual(new Set(sources.map(({ file }) => file)));
  const read = told.map(({ bytesRead }) => bytesRead);
  expect(read).toEqual(read.toSorted((a, b) => a - b));
  const bytes = sources.reduce((sum, { file }) => sum + statSync(join(folder, file)).size, 0);
  expect(told.at(-1)).toMatchObject({ bytesRead: bytes, bytes });
});
