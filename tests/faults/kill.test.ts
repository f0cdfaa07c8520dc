import { join } from 'node:path';
import { expect, test } from 'vitest';
import { tempFolder } from '../store/temp-store.ts';
import { olderStore, watchedFolder } from './kill-scenes.ts';
import { commandsToKill, killOnce, undisturbed } from './kill-chain.ts';
import { writeInputs } from './kill-inputs.ts';

// As `npm run kill` does it with more of everything.
test('killed at any moment of ingest or judge, a second run gives to the byte what an undisturbed one gives', async () => {
  const folder = tempFolder();
  const sizes = { seed: 5, jobs: 4, smallFiles: 4, largeRows: 7000, bundles: 0 };
  // A bundle, mapped files, and a judging; what comes again, corrected, is the long run's.
  const commands = (await writeInputs(join(folder, 'inputs'), sizes)).filter((_, at) => [0, 1, 5].includes(at));
  const run = await undisturbed(join(folder, 'run'), commands);
  let hits = 0;
  for (const [point, index] of commandsToKill(run, 8).entries()) {
    const { command, moment, hit, problems } = await killOnce(run, index, {
      seed: 5,
      point,
      goOn: point === 0,
      isQuick: true,
    });
    expect([command, moment, problems]).toEqual([command, moment, []]);
    hits += hit ? 1 : 0;
  }
  expect(hits).toBeGreaterThan(2);
}, 300_000);

test('killed while it takes an older store forward, or watches a folder, a second run is right', async () => {
  const folder = tempFolder();
  const inputs = join(folder, 'inputs');
  const commands = await writeInputs(inputs, { seed: 6, jobs: 3, smallFiles: 4, largeRows: 7000, bundles: 0 });
  for (const run of [
    await olderStore(join(folder, 'older'), commands),
    await watchedFolder(join(folder, 'watched'), inputs),
  ])
    for (let point = 0; point < 2; point += 1) {
      const { command, moment, problems } = await killOnce(run, 0, { seed: 6, point, goOn: false, isQuick: true });
      expect([command, moment, problems]).toEqual([command, moment, []]);
    }
}, 300_000);
