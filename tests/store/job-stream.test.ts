import { join } from 'node:path';
import { expect, test } from 'vitest';
import { streamJobReadings } from '../../src/store/job-stream.ts';
import { readSlice } from '../../src/store/read-slice.ts';
import { SegmentReader } from '../../src/store/segment-reader.ts';
import { type SegmentSlice, segmentSlices } from '../../src/store/segment-slices.ts';
import type { Store } from '../../src/store/store.ts';
import { ingestFiles, inStore, tempFolder } from './temp-store.ts';

const csv = (...lines: readonly string[]) => `${lines.join('\n')}\n`;

/** What a job's readings come to, in plain arrays. */
async function streamed(store: Store) {
  await store.run('CREATE OR REPLACE TEMP TABLE wanted AS SELECT job_id FROM segment_jobs');
  const jobs = new Map();
  for await (const { jobId, series, marks, ...line } of streamJobReadings(store, 'wanted')) {
    const plain = series.map(({ gauge, elapsedS, vacuumPa }) => [gauge, [...elapsedS], [...vacuumPa]]);
    jobs.set(jobId, { series: plain, marks, ...line });
  }
  return jobs;
}

test('jobs with one gauge and with several, marks and a clamp that is read seldom', async () => {
  await inStore(join(tempFolder(), 'store'), async (store) => {
    await ingestFiles(store, {
      'readings.csv': csv(
        'job_id,elapsed_s,gauge,vacuum_pa,line_c,phase_mark',
        'one,0,,over,20,pull-down',
        'one,10,,500,,pull-down',
        'one,20,,,,',
        'one,30,,40.5,22,isolation',
        'two,0,left,100,,',
        'two,0,right,110,,hold',
        'two,5,right,90,,hold',
        'two,7,,80,,',
      ),
    });
    // Another delivery, another segment: it has neither gauges nor marks, nor a clamp.
    await ingestFiles(store, { 'readings.csv': csv('job_id,elapsed_s,vacuum_pa', 'three,-1.5,0', 'three,2,3') });
    expect(await streamed(store)).toEqual(
      new Map<string, unknown>([
        [
          'one',
          {
            series: [[null, [0, 10, 20, 30], [Number.POSITIVE_INFINITY, 500, Number.NaN, 40.5]]],
            marks: [
              { elapsedS: 0, phase: 'pull-down' },
              { elapsedS: 20, phase: null },
              { elapsedS: 30, phase: 'isolation' },
            ],
            line: { meanK: 294.15, lowK: 294.15 },
          },
        ],
        [
          'two',
          {
            series: [
              ['left', [0], [100]],
              ['right', [0, 5], [110, 90]],
              [null, [7], [80]],
            ],
            marks: [
              { elapsedS: 0, phase: 'hold' },
              { elapsedS: 7, phase: null },
            ],
          },
        ],
        ['three', { series: [[null, [-1.5, 2], [0, 3]]], marks: [] }],
      ]),
    );
  });
});

test('readings that hold no vacuum are not read as one', async () => {
  await inStore(join(tempFolder(), 'store'), async (store) => {
    await ingestFiles(store, { 'readings.csv': csv('job_id,elapsed_s,line_c', 'a,0,20', 'a,1,21') });
    expect(await streamed(store)).toEqual(
      new Map([['a', { series: [[null, [0, 1], [Number.NaN, Number.NaN]]], marks: [] }]]),
    );
  });
});

test('however it is cut, every job has its own rows, and jobs far from each other are not read together', async () => {
  await inStore(join(tempFolder(), 'store'), async (store) => {
    // Three row groups; every job 700 rows, at a pressure of its own.
    const jobs = 400;
    const named = (job: number) => `j${String(job).padStart(4, '0')}`;
    const lines = Array.from({ length: jobs * 700 }, (_, row) => {
      const job = Math.floor(row / 700);
      return `${named(job)},${row % 700},${job}`;
    });
    await ingestFiles(store, { 'readings.csv': `job_id,elapsed_s,vacuum_pa\n${lines.join('\n')}\n` });
    const wanted = [...Array(150).keys(), ...Array.from({ length: 20 }, (_, n) => 152 + 3 * n), 398];
    await store.fill('wanted', wanted.map(named));
    const reader = await SegmentReader.begin();
    for (const [mostRows, count] of [
      [10_000, 16],
      [123_000, 3],
      [1_000_000, 2],
    ]) {
      const slices: SegmentSlice[] = [];
      for await (const slice of segmentSlices(store, 'wanted', 3 * mostRows)) slices.push(slice);
      expect(slices).toHaveLength(count);
      expect(Math.max(...slices.map((slice) => slice.rows))).toBeLessThanOrEqual(mostRows);
      const found = [];
      for (const slice of slices) for await (const job of readSlice(reader, slice)) found.push(job);
      const pressures = found.map(({ jobId, series }) => [
        jobId,
        series[0].elapsedS.length,
        new Set(series[0].vacuumPa),
      ]);
      expect(pressures).toEqual(wanted.map((job) => [named(job), 700, new Set([job])]));
    }
  });
});
