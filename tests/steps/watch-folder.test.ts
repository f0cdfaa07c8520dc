import { appendFileSync, mkdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as delay } from 'node:timers/promises';
import { expect, test } from 'vitest';
import { watchFolders, wholeFiles } from '../../src/steps/watch-folder.ts';
import { tempFolder } from '../store/temp-store.ts';

/** Longer than a busy machine stops for between two lines of a test [ms]. */
const quietMs = 800;

/** Waits until something is so, and then a little for what should not come. */
async function until(is: () => boolean): Promise<void> {
  for (let waited = 0; !is() && waited < 20_000; waited += 20) await delay(20);
  await delay(200);
}

/** Watches a folder while something is done in it; gives what was told, look by look. */
async function watched(folder: string, work: (told: string[][]) => Promise<void>, takes: () => boolean = () => true) {
  const told: string[][] = [];
  const ended = new AbortController();
  const watch = watchFolders(
    [folder],
    async (paths) => {
      told.push(paths.map((path) => path.slice(folder.length + 1)));
      return takes();
    },
    { everyMs: 20, quietMs, signal: ended.signal },
  );
  await work(told);
  ended.abort();
  await watch;
  return told;
}

test('a file is told once, when it is whole: not while it grows, not under a name for unfinished files', async () => {
  const folder = tempFolder();
  const told = await watched(folder, async (heard) => {
    writeFileSync(join(folder, 'slow.csv'), 'a\n');
    for (let block = 0; block < 8; block += 1) {
      await delay(60);
      expect(heard).toEqual([]);
      appendFileSync(join(folder, 'slow.csv'), 'b\n');
    }
    mkdirSync(join(folder, 'below'));
    writeFileSync(join(folder, 'below', 'copy.csv.part'), 'a\n');
    writeFileSync(join(folder, '.hidden.csv'), 'a\n');
    writeFileSync(join(folder, 'empty.csv'), '');
    await until(() => heard.length > 0);
    await delay(2 * quietMs);
    expect(heard).toEqual([['slow.csv']]);
    renameSync(join(folder, 'below', 'copy.csv.part'), join(folder, 'below', 'copy.csv'));
    await until(() => heard.length > 1);
  });
  expect(told).toEqual([['slow.csv'], [join('below', 'copy.csv')]]);
});

test('a file that changes is told again, one that goes and comes back too', async () => {
  const folder = tempFolder();
  const told = await watched(folder, async (heard) => {
    writeFileSync(join(folder, 'log.csv'), 'a\n');
    await until(() => heard.length > 0);
    writeFileSync(join(folder, 'log.csv'), 'corrected\n');
    await until(() => heard.length > 1);
    rmSync(join(folder, 'log.csv'));
    await delay(500);
    writeFileSync(join(folder, 'log.csv'), 'corrected\n');
    await until(() => heard.length > 2);
  });
  expect(told).toEqual([['log.csv'], ['log.csv'], ['log.csv']]);
});

test('what could not be taken is told again', async () => {
  const folder = tempFolder();
  let busy = true;
  const told = await watched(
    folder,
    async (heard) => {
      writeFileSync(join(folder, 'log.csv'), 'a\n');
      await until(() => heard.length > 0);
      busy = false;
      await until(() => heard.length > 1);
    },
    () => !busy,
  );
  expect(told.length).toBeGreaterThan(1);
  expect(new Set(told.flat())).toEqual(new Set(['log.csv']));
});

test('of what lies at paths those are whole that keep still while they are looked at twice', async () => {
  const folder = tempFolder();
  const at = (name: string) => join(folder, name);
  for (const name of ['still.csv', 'growing.csv', 'alone.csv']) writeFileSync(at(name), 'a\n');
  writeFileSync(at('empty.csv'), '');
  writeFileSync(at('copy.csv.part'), 'a\n');
  const growth = setInterval(() => appendFileSync(at('growing.csv'), 'b\n'), 50);
  const { whole, unfinished } = await wholeFiles([folder], quietMs).finally(() => clearInterval(growth));
  expect([whole.sort(), unfinished.sort()]).toEqual([
    [at('alone.csv'), at('still.csv')],
    [at('empty.csv'), at('growing.csv')],
  ]);
  expect(await wholeFiles([at('alone.csv')], 20)).toEqual({ whole: [at('alone.csv')], unfinished: [] });
});
