import { existsSync, mkdirSync, readdirSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { inAsideFolder } from '../../src/store/aside-folder.ts';
import { tempFolder } from './temp-store.ts';

/** No process has so high a number. */
const gone = 2 ** 30;

test('what a run that is no more left goes, and what another is writing stays', async () => {
  const out = tempFolder();
  // An earlier process may have had the number of this one.
  for (const name of [gone, process.pid, process.ppid]) mkdirSync(join(out, `.unfinished-${name}-abc`));
  mkdirSync(join(out, '.unfinished-abc'));
  await inAsideFolder(out, async (first) => {
    writeFileSync(join(first, 'a'), '');
    await inAsideFolder(out, async (second) => {
      writeFileSync(join(second, 'b'), '');
      renameSync(join(second, 'b'), join(out, 'b'));
    });
    renameSync(join(first, 'a'), join(out, 'a'));
  });
  expect(readdirSync(out).sort()).toEqual([`.unfinished-${process.ppid}-abc`, 'a', 'b']);
});

test('where nothing came of it, folders that were made for it are gone, and those that were there stay', async () => {
  const folder = tempFolder();
  mkdirSync(join(folder, 'there'));
  for (const out of ['new/within', 'there/new', 'there'])
    await expect(inAsideFolder(join(folder, out), () => Promise.reject(new Error('no')))).rejects.toThrow('no');
  expect([existsSync(join(folder, 'new')), readdirSync(join(folder, 'there'))]).toEqual([false, []]);
});
