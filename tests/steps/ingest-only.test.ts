import { mkdirSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { ingest } from '../../src/steps/ingest.ts';
import { realPath } from '../../src/steps/real-path.ts';
import { inStore, tempFolder, writeFiles } from '../store/temp-store.ts';

test('files that are asked for are found by whatever link, whether the folder or the file is named by it', async () => {
  const folder = tempFolder();
  mkdirSync(join(folder, 'drop'));
  symlinkSync(join(folder, 'drop'), join(folder, 'linked'), 'junction');
  writeFiles(join(folder, 'drop'), {
    'jobs.csv': 'job_id,started_at\nJ-1,2026-01-05T09:00:00Z\n',
    'people.csv': 'technician_id\nt77\n',
  });
  const names = await inStore(join(folder, 'store'), async (store) => {
    const taken = async (path: string, only: string) =>
      (await ingest(store, [join(folder, path)], { only: new Set([join(folder, only)]) })).sources.map(
        ({ file }) => file,
      );
    return [await taken('linked', 'drop/people.csv'), await taken('drop', 'linked/jobs.csv')];
  });
  expect(names).toEqual([['linked/people.csv'], ['drop/jobs.csv']]);
  expect(realPath(join(folder, 'linked', 'gone', 'a.csv'))).toBe(realPath(join(folder, 'drop', 'gone', 'a.csv')));
});
