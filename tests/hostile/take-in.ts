import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect } from 'vitest';
import { ingest } from '../../src/steps/ingest.ts';
import type { Store } from '../../src/store/store.ts';
import { inStore, tempFolder, unbalanced } from '../store/temp-store.ts';

/** Some good readings of a job, as a bundle's file. */
export const readingsOf = (job: string) => `job_id,elapsed_s,vacuum_pa\n${job},0,500\n${job},10,400\n`;

/** The same as a file that a map reads; the job is called as the file is. */
export const mappedLog = 't,v\n0,500\n10,400\n';

/** The map for such files. */
export const byFileName = {
  rows: [
    {
      table: 'readings',
      columns: { job_id: { file_name: true }, elapsed_s: { column: 't' }, vacuum_pa: { column: 'v' } },
    },
  ],
};

type Files = Record<string, string | Buffer>;

/** What came of files: how many rows of each were read, kept and refused, which files were refused and why, and the jobs. */
export interface CameOf {
  readonly sources: Record<string, [read: number, kept: number, refused: number]>;
  readonly refused: Record<string, string>;
  readonly leftAside: readonly string[];
  readonly jobs: Record<string, number>;
}

/**
 * Takes the folder `in` of some files into a new store; every row must be accounted for.
 *
 * @param map by which; without it a bundle
 * @param prepare makes what is no plain file
 */
export async function takeIn(
  files: Files,
  {
    map,
    paths = ['in'],
    store: name = 'store',
    prepare = () => undefined,
    look = () => Promise.resolve(),
  }: {
    map?: object;
    paths?: string[];
    store?: string;
    prepare?: (folder: string) => void;
    look?: (store: Store) => Promise<void>;
  } = {},
): Promise<CameOf> {
  const folder = tempFolder();
  mkdirSync(join(folder, 'in'));
  for (const [path, content] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), content);
  }
  prepare(folder);
  if (map !== undefined) writeFileSync(join(folder, 'map.json'), JSON.stringify({ name: 'ours', ...map }));
  return inStore(join(folder, name), async (store) => {
    const result = await ingest(
      store,
      paths.map((path) => join(folder, path)),
      map === undefined ? {} : { map: join(folder, 'map.json') },
    );
    expect(await unbalanced(store)).toEqual([]);
    const booked = await store.rows('SELECT file FROM rejects WHERE line = 0 ORDER BY ALL');
    expect(booked.map(({ file }) => file)).toEqual(result.refusedFiles.map(({ file }) => file).sort());
    await look(store);
    const jobs = await store.rows<{ job: string; n: number }>(
      'SELECT job_id AS job, count(*) AS n FROM readings GROUP BY ALL ORDER BY ALL',
    );
    return {
      sources: Object.fromEntries(
        result.sources.map(({ file, rows_read, rows_kept, rows_rejected }) => [
          file,
          [rows_read, rows_kept, rows_rejected],
        ]),
      ),
      refused: Object.fromEntries(result.refusedFiles.map(({ file, detail }) => [file, detail])),
      leftAside: result.leftAside,
      jobs: Object.fromEntries(jobs.map(({ job, n }) => [job, n])),
    };
  });
}
