import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { rowParser } from '../../src/records/row.ts';
import { inputTables, tableNamed } from '../../src/records/tables.ts';
import { applianceTruthColumns } from '../../src/simulate/appliance-truth.ts';
import { CsvFile } from '../../src/simulate/csv-file.ts';
import { cylinderTruthColumns } from '../../src/simulate/cylinder-truth.ts';
import { simulateFleet } from '../../src/simulate/fleet.ts';
import { truthColumns } from '../../src/simulate/truth.ts';
import { writeBundle, type WrittenBundle } from '../../src/simulate/write-bundle.ts';

let folder = '';
let written: WrittenBundle;
const progress: number[] = [];
const tables = new Map<string, Record<string, string>[]>();
const names = [
  'people',
  'memberships',
  'trainings',
  'gauges',
  'cylinders',
  'jobs',
  'line_sets',
  'weighings',
  'appliances',
  'callbacks',
  'repairs',
  'inspections',
  'readings',
];
const truths = [
  'truth',
  'callback_truth',
  'cylinder_truth',
  'appliance_truth',
  'technician_truth',
  'crew_truth',
  'training_truth',
];

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'dryhold-bundle-'));
  written = await writeBundle(simulateFleet({ jobs: 300, seed: 3 }), folder, (jobs) => progress.push(jobs));
  for (const name of [...names, ...truths]) {
    tables.set(name, parse(await readFile(join(folder, `${name}.csv`)), { columns: true }));
  }
});
afterAll(() => rm(folder, { recursive: true, force: true }));

describe('writeBundle', () => {
  test('counts what it wrote, and tells of every job', () => {
    expect(written.jobs).toBe(300);
    expect(written.readings).toBe(tables.get('readings')?.length);
    expect(tables.get('jobs')).toHaveLength(300);
    expect(tables.get('truth')).toHaveLength(300);
    expect(progress).toEqual(Array.from({ length: 300 }, (_, index) => index + 1));
  });

  test.each(names)('every row of %s.csv parses', (name) => {
    const table = tableNamed(name);
    if (table === undefined) throw new Error(`no table ${name}`);
    expect(inputTables).toContain(table);
    const parser = rowParser(table);
    const rows = tables.get(name) ?? [];
    expect(rows.length).toBeGreaterThan(0);
    const every = name === 'readings' ? 37 : 1;
    const faults = rows
      .filter((_, index) => index % every === 0)
      .map(parser)
      .filter((parsed) => 'problem' in parsed);
    expect(faults).toEqual([]);
  });

  test('every column holds something', () => {
    const empty = [...tables].flatMap(([name, rows]) =>
      Object.keys(rows[0] ?? {})
        .filter((column) => rows.every((row) => row[column] === ''))
        .map((column) => `${name}.${column}`),
    );
    expect(empty).toEqual([]);
  });

  test('readings stand in the order of jobs and time', () => {
    const rows = tables.get('readings') ?? [];
    const order = new Map(tables.get('jobs')?.map((row, index) => [row.job_id, index]));
    const place = (row: Record<string, string>) => order.get(row.job_id) ?? -1;
    const late = rows.filter((row, index) => {
      const before = rows[index - 1];
      if (before === undefined || place(before) < place(row)) return false;
      return place(before) > place(row) || Number(before.elapsed_s) >= Number(row.elapsed_s);
    });
    expect(late).toEqual([]);
  });

  test('says over where the gauge cannot tell, and marks phases where the source does', () => {
    const rows = tables.get('readings') ?? [];
    expect(rows.some((row) => row.vacuum_pa === 'over')).toBe(true);
    expect(new Set(rows.map((row) => row.phase_mark))).toEqual(
      new Set(['', 'pressure-test', 'pull-down', 'hold', 'isolation', 'break', 'weigh-in', 'run']),
    );
  });

  test('the truth has its columns, and a row for each job', () => {
    expect(Object.keys(tables.get('truth')?.[0] ?? {})).toEqual([...truthColumns]);
    expect(tables.get('truth')?.map((row) => row.job_id)).toEqual(tables.get('jobs')?.map((row) => row.job_id));
    expect(Object.keys(tables.get('cylinder_truth')?.[0] ?? {})).toEqual([...cylinderTruthColumns]);
    expect(Object.keys(tables.get('appliance_truth')?.[0] ?? {})).toEqual([...applianceTruthColumns]);
  });

  test('the truth of cylinders and appliances names rows of the bundle', () => {
    const idsOf = (name: string, column: string) => new Set(tables.get(name)?.map((row) => row[column]));
    const [cylinderIds, weighingIds] = [idsOf('cylinders', 'cylinder_id'), idsOf('weighings', 'weighing_id')];
    const planted = tables.get('cylinder_truth') ?? [];
    expect(planted.length).toBeGreaterThan(4);
    for (const row of planted) {
      expect(cylinderIds).toContain(row.cylinder_id);
      if (row.other_cylinder_id !== '') expect(cylinderIds).toContain(row.other_cylinder_id);
      if (row.weighing_id !== '') expect(weighingIds).toContain(row.weighing_id);
    }
    const plant = tables.get('appliance_truth')?.map((row) => row.system_id) ?? [];
    expect(plant).toHaveLength(24);
    for (const systemId of plant) expect(idsOf('appliances', 'system_id')).toContain(systemId);
  });

  test('equal options give equal bytes', async () => {
    const second = join(folder, 'second');
    await writeBundle(simulateFleet({ jobs: 300, seed: 3 }), second);
    const read = (root: string) =>
      Promise.all([...names, ...truths].map((name) => readFile(join(root, `${name}.csv`))));
    const [first, again] = await Promise.all([read(folder), read(second)]);
    expect(first.map((bytes, index) => bytes.equals(again[index]))).toEqual(first.map(() => true));
  });
});

describe('CsvFile', () => {
  test('writes fields of RFC 4180 and numbers without trailing zeros', async () => {
    const path = join(folder, 'fields.csv');
    const file = await CsvFile.create(path, ['a', 'b']);
    file.text('plain');
    file.text('with "quotes", commas\nand lines');
    file.endRow();
    for (const [value, decimals] of [
      [0, 2],
      [0.05, 2],
      [-0.05, 2],
      [-0.001, 2],
      [12.5, 1],
      [100, 3],
      [101324.999, 2],
      [0.1 + 0.2, 3],
    ] as const) {
      file.fixed(value, decimals);
    }
    file.endRow();
    await file.close();
    expect(await readFile(path, 'utf8')).toBe(
      'a,b\r\nplain,"with ""quotes"", commas\nand lines"\r\n0,0.05,-0.05,0,12.5,100,101325,0.3\r\n',
    );
    expect(file.rows).toBe(2);
  });
});
