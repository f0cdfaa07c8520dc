import { join } from 'node:path';
import { expect, test } from 'vitest';
import { dryholdProgram } from '../../src/cli/program.ts';
import { tempFolder, writeFiles } from '../store/temp-store.ts';

test('--only names files that are there, and is nothing for a watch', async () => {
  const folder = writeFiles(tempFolder(), { 'jobs.csv': 'job_id\n' });
  const ingest = (...args: string[]) => dryholdProgram().parseAsync(['ingest', folder, ...args], { from: 'user' });
  const jobs = join(folder, 'jobs.csv');
  const typo = join(folder, 'typo.csv');
  const missing = { code: 'file-not-found', parameters: { path: typo } };
  await expect(ingest('--only', jobs, typo)).rejects.toMatchObject(missing);
  await expect(ingest('--only', typo, '--whole')).rejects.toMatchObject(missing);
  await expect(ingest('--only', jobs, '--watch')).rejects.toMatchObject({ code: 'bad-usage' });
});
