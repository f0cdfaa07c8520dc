import { spawnSync } from 'node:child_process';
import { readFileSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { judge } from '../../src/steps/judge.ts';
import { samples } from '../cli/dryhold-process.ts';
import { byFileName, mappedLog, readingsOf, takeIn } from './take-in.ts';

const parquet = readFileSync(join(samples, 'bundle-parquet', 'readings.parquet'));
const leadsOut = 'it is a link that leads out of the folder; name what it leads to, if that is meant';
const noFile = 'it is a pipe, a socket or a device, and no file';

/** Makes links and pipes in the folder `in`. */
const linked =
  (links: Record<string, string>, pipes: string[] = []) =>
  (folder: string) => {
    for (const [name, target] of Object.entries(links)) symlinkSync(target, join(folder, 'in', name));
    for (const pipe of pipes) expect(spawnSync('mkfifo', [join(folder, 'in', pipe)]).status).toBe(0);
  };

describe('who names a folder means what is in it', () => {
  const files = { 'in/good.csv': mappedLog, 'out/secret.csv': mappedLog };
  test('links that lead out or nowhere, pipes and devices are told, and not read', async () => {
    const prepare = linked(
      { 'out.csv': '../out/secret.csv', 'zero.csv': '/dev/zero', 'none.csv': 'gone', all: '../out' },
      ['pipe.csv'],
    );
    const { refused, leftAside, jobs } = await takeIn(files, { map: byFileName, prepare });
    expect(refused).toEqual({
      [join('in', 'none.csv')]: 'it is a link that leads nowhere',
      [join('in', 'out.csv')]: leadsOut,
      [join('in', 'pipe.csv')]: noFile,
      [join('in', 'zero.csv')]: leadsOut,
    });
    expect(leftAside).toEqual([join('in', 'all')]);
    expect(jobs).toEqual({ good: 2 });
  });

  test('the same in a bundle, and of a folder of files of one table', async () => {
    const prepare = linked({ 'gauges.csv': '../out/secret.csv', jobs: '../out', 'reviews.csv': 'gone' }, [
      'people.csv',
    ]);
    const { refused, jobs } = await takeIn({ 'in/readings.csv': readingsOf('A'), ...files }, { prepare });
    expect(refused).toEqual({
      [join('in', 'gauges.csv')]: leadsOut,
      [join('in', 'jobs')]: leadsOut,
      [join('in', 'people.csv')]: noFile,
      [join('in', 'reviews.csv')]: 'it is a link that leads nowhere',
    });
    expect(jobs).toEqual({ A: 2 });
  });

  test('links in circles and within the folder count once', async () => {
    const { sources } = await takeIn(
      { 'in/deep/a.csv': mappedLog },
      { map: byFileName, prepare: linked({ loop: '.', 'deep/up': '..' }) },
    );
    expect(Object.keys(sources)).toEqual([join('in', 'deep', 'a.csv')]);
    const bundle = await takeIn({ 'in/data/1.csv': readingsOf('A') }, { prepare: linked({ readings: 'data' }) });
    expect(bundle.jobs).toEqual({ A: 2 });
  });

  test('a link that is named itself is followed; a pipe is not read', async () => {
    const prepare = linked({ 'readings.csv': '../out/r.csv' });
    const { jobs } = await takeIn({ 'out/r.csv': readingsOf('A') }, { prepare, paths: ['in/readings.csv'] });
    expect(jobs).toEqual({ A: 2 });
    for (const map of [undefined, byFileName]) {
      const { refused } = await takeIn(
        {},
        { prepare: linked({}, ['readings.csv']), paths: ['in/readings.csv'], ...(map && { map }) },
      );
      expect(refused).toEqual({ 'readings.csv': noFile });
    }
  });
});

describe('names of files and folders are names', () => {
  const names = [
    '*.csv',
    '?.csv',
    '[ab].csv',
    'it\'s "so".csv',
    'a\nb.csv',
    "'); DROP TABLE jobs; --.csv",
    '$HOME.csv',
    '-x.csv',
    '=1+1.csv',
    '<b>.csv',
  ];
  test.each([1, 3000])('with signs of all sorts, in files of %i readings', async (rows) => {
    const lines = (job: number) => Array.from({ length: rows }, (_, at) => `J${job},${at},500`).join('\n');
    const files = names.map((name, job) => [`in/readings/${name}`, `job_id,elapsed_s,vacuum_pa\n${lines(job)}\n`]);
    const { sources, refused } = await takeIn(Object.fromEntries(files) as Record<string, string>);
    expect(refused).toEqual({});
    expect(Object.keys(sources).sort()).toEqual(names.map((name) => join('in', 'readings', name)).sort());
    for (const counts of Object.values(sources)) expect(counts).toEqual([rows, rows, 0]);
  });

  test('a Parquet file called as all are is that one alone', async () => {
    const { sources } = await takeIn({ 'in/readings/*.parquet': parquet, 'in/readings/a.parquet': parquet });
    expect(Object.values(sources)).toEqual([
      [287, 286, 1],
      [287, 0, 1],
    ]);
  });

  test('a folder called as a column with a value gives no row that value', async () => {
    const files = { 'in/job_id=EVIL/readings.parquet': parquet, 'in/job_id=EVIL/readings/1.csv': readingsOf('A') };
    const { jobs } = await takeIn(files, { paths: ['in/job_id=EVIL'] });
    expect(jobs).toEqual({ A: 2, 'W-101': 79, 'W-102': 49, 'W-103': 158 });
  });

  test.each(['job_id=5', 'st[1]*', "it's; DROP TABLE jobs"])('a store that lies in %s', async (store) => {
    const started = 'job_id,started_at\nA,2026-03-05T14:30:00Z\n';
    const { jobs } = await takeIn(
      { 'in/readings.csv': readingsOf('A'), 'in/jobs.csv': started },
      { store, look: async (opened) => expect((await judge(opened)).judged).toBe(1) },
    );
    expect(jobs).toEqual({ A: 2 });
  });

  test('a store cannot lie where the engine would take its path for something else', async () => {
    await expect(takeIn({ 'in/readings.csv': readingsOf('A') }, { store: 'st?' })).rejects.toMatchObject({
      code: 'store-unreadable',
    });
  });
});
