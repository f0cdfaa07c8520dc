import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { expect, test } from 'vitest';
import { simulateFleet } from '../../../src/simulate/fleet.ts';
import { mishapColumns, truthColumns } from '../../../src/simulate/truth.ts';
import { writeBundle } from '../../../src/simulate/write-bundle.ts';

test('a bundle with mishaps tells of them in its truth, and its readings stay in the order of their times', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'dryhold-mishaps-'));
  try {
    await writeBundle(simulateFleet({ jobs: 200, seed: 6, intervalS: 20, withPlant: false, mishaps: true }), folder);
    const rowsOf = async (name: string) =>
      parse<Record<string, string>>(await readFile(join(folder, name)), { columns: true });
    const truth = await rowsOf('truth.csv');
    expect(Object.keys(truth[0] ?? {})).toEqual([...truthColumns, ...mishapColumns]);
    for (const column of mishapColumns)
      expect([column, truth.some((row) => row[column] !== '')]).toEqual([column, true]);
    const readings = await rowsOf('readings.csv');
    const late = readings.filter((row, index) => {
      const before = readings[index - 1];
      return before?.job_id === row.job_id && Number(before?.elapsed_s) >= Number(row.elapsed_s);
    });
    expect(late).toEqual([]);
    // In a coarser unit a column keeps its figures.
    const coarse = truth.filter(({ recording_fault: fault }) => /Torr|mbar|kPa|minutes/.test(fault ?? ''));
    expect(coarse.length).toBeGreaterThan(1);
    for (const { job_id, recording_fault_column: column = '' } of coarse) {
      const own = readings.filter((row) => row.job_id === job_id).map((row) => row[column] ?? '');
      expect([job_id, own.some((value) => /\.\d{3}$/.test(value))]).toEqual([job_id, true]);
    }
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
});
