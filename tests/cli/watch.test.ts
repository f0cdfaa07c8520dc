import { once } from 'node:events';
import { copyFileSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as delay } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { startDryhold } from '../store/run-dryhold.ts';
import { inStore, tempFolder } from '../store/temp-store.ts';

const sample = fileURLToPath(new URL('../../sample-data/mapped-logs/', import.meta.url));

test('what comes into a watched folder is taken in, and Ctrl+C ends it with the status of the worst', async () => {
  const folder = tempFolder();
  const drop = join(folder, 'drop');
  mkdirSync(drop);
  const store = join(folder, 'store');
  const child = startDryhold(['ingest', drop, '--map', join(sample, 'map.json'), '--store', store, '--watch'], 'pipe');
  let said = '';
  child.stdout?.on('data', (block) => (said += String(block)));
  const ended = once(child, 'exit');
  const until = async (text: string) => {
    for (let waited = 0; !said.includes(text) && waited < 20_000; waited += 50) await delay(50);
    expect(said).toContain(text);
  };
  copyFileSync(join(sample, 'logs', 'W-101.csv'), join(drop, 'W-101.csv'));
  await until('drop/W-101.csv: 79 rows kept\n');
  copyFileSync(join(sample, 'logs', 'W-103.csv'), join(drop, 'W-103.csv'));
  await until('drop/W-103.csv: 79 rows kept, 1 refused\n');
  child.kill('SIGINT');
  expect(await ended).toEqual([1, null]);
  const files = await inStore(store, (opened) => opened.rows('SELECT file FROM sources ORDER BY file'));
  expect(files).toEqual([{ file: 'drop/W-101.csv' }, { file: 'drop/W-103.csv' }]);
}, 60_000);
