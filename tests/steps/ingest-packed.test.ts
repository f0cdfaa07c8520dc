import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { expect, test } from 'vitest';
import { ingest } from '../../src/steps/ingest.ts';
import { exported, inStore, tempFolder, writeFiles } from '../store/temp-store.ts';
import { storedZip } from '../stored-zip.ts';

const jobs = 'job_id,started_at\nA,2026-03-05T14:30:00Z\n';
const readings = 'job_id,elapsed_s,vacuum_pa\nA,0,500\nA,10,400\n';

/** What a path gives, and what of it is called how. */
async function taken(path: string) {
  return inStore(join(tempFolder(), 'store'), async (store) => {
    const result = await ingest(store, [path]);
    const spill = join(store.folder, 'spill');
    expect(existsSync(spill) ? readdirSync(spill) : []).toEqual([]);
    return { result, readings: await exported(store, 'readings'), jobs: await exported(store, 'jobs') };
  });
}

test('a bundle whose files are packed, or that is an archive, gives what the bundle itself gives', async () => {
  const plain = writeFiles(join(tempFolder(), 'june'), { 'jobs.csv': jobs, 'readings/1.csv': readings });
  const packed = join(tempFolder(), 'june');
  mkdirSync(join(packed, 'readings'), { recursive: true });
  writeFileSync(join(packed, 'jobs.csv.gz'), gzipSync(jobs));
  writeFileSync(join(packed, 'readings', '1.csv.gz'), gzipSync(readings));
  const archive = join(tempFolder(), 'june.zip');
  writeFileSync(
    archive,
    storedZip([
      { name: 'jobs.csv', content: jobs },
      { name: 'readings/1.csv', content: readings },
    ]),
  );
  const [one, other, third] = [await taken(plain), await taken(packed), await taken(archive)];
  expect(one.readings).toContain('A,10.0,,400.0');
  for (const each of [other, third]) {
    expect(each.readings).toEqual(one.readings);
    expect(each.jobs).toEqual(one.jobs);
  }
  expect(third.result.sources.map(({ file }) => file)).toEqual(['june.zip/jobs.csv', 'june.zip/readings/1.csv']);
});

test('a packed file that breaks off is a refused file, and the rest comes in', async () => {
  const folder = writeFiles(join(tempFolder(), 'june'), { 'jobs.csv': jobs });
  const bytes = gzipSync(readFileSync(join(folder, 'jobs.csv')));
  writeFileSync(join(folder, 'readings.csv.gz'), bytes.subarray(0, bytes.length - 9));
  const { result, jobs: kept } = await taken(folder);
  expect(result.refusedFiles).toEqual([
    { file: join('june', 'readings.csv.gz'), detail: expect.stringContaining('cannot be unpacked') as string },
  ]);
  expect(kept).toContain('A,');
});
