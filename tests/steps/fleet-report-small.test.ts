import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { FleetReport } from '../../src/pages/fleet-data.ts';
import { simulateFleet } from '../../src/simulate/fleet.ts';
import { writeBundle } from '../../src/simulate/write-bundle.ts';
import { fleetReport } from '../../src/steps/fleet-report.ts';
import { judge } from '../../src/steps/judge.ts';
import { ingestFiles, inStore, tempFolder } from '../store/temp-store.ts';

const folder = mkdtempSync(join(tmpdir(), 'dryhold-fleet-small-'));
afterAll(() => rmSync(folder, { recursive: true }));

type Cells = Record<string, string>;
let jobs: Cells[];
let readings: string;

beforeAll(async () => {
  await writeBundle(simulateFleet({ jobs: 30, seed: 5, intervalS: 20 }), folder);
  const [head, ...lines] = readFileSync(join(folder, 'jobs.csv'), 'utf8').trim().split('\n');
  jobs = lines.map((line) => Object.fromEntries(line.split(',').map((cell, at) => [head.split(',')[at], cell])));
  readings = readFileSync(join(folder, 'readings.csv'), 'utf8');
}, 60_000);

/** The report of a shop of thirty jobs, each of them changed. */
function reportOf(change: (job: Cells) => Cells, files: Record<string, string> = {}, of = jobs): Promise<FleetReport> {
  const rows = of.map(change);
  const csv = [Object.keys(rows[0]), ...rows.map((row) => Object.values(row))].map((row) => row.join(',')).join('\n');
  return inStore(join(tempFolder(), 'store'), async (store) => {
    await ingestFiles(store, { 'jobs.csv': `${csv}\n`, 'readings.csv': readings, ...files });
    await judge(store);
    return fleetReport(store, { codes: false });
  });
}

const byOne = (job: Cells): Cells => ({ ...job, technician_id: 'ada', crew_id: 'crew-only' });
/** Where a report has what is no number: JSON would make null of it. */
function lost(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path} ${value}`];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, each]) => lost(each, `${path}/${key}`));
}

describe('small shops', () => {
  test('of one technician have nobody to stand out from', async () => {
    const report = await reportOf(byOne);
    expect(report).toMatchObject({ technicians: 1, crews: 1, jobs: 30, tested: { people: 0 } });
    expect(report.standingOut.filter(({ unit }) => ['technician', 'crew'].includes(unit.kind))).toEqual([]);
    const rise = report.rates.find(({ skill }) => skill.id === 'rise');
    expect(rise?.fleet.jobs).toBeGreaterThan(10);
    for (const { units } of rise?.groupings.slice(0, 2) ?? [])
      expect(units).toMatchObject([
        { jobs: rise?.fleet.jobs, variance: null, ratio: null, widened: null, chance: null },
      ]);
    expect(lost(report)).toEqual([]);
  });

  test('in which no job names a technician still have crews', async () => {
    const report = await reportOf((job) => ({ ...job, technician_id: '' }));
    expect(report).toMatchObject({ technicians: 0, crews: 4, jobs: 30, tested: { people: 0 } });
    for (const { groupings } of report.rates) {
      expect(groupings[0]).toMatchObject({ kind: 'technician', units: [] });
      expect(groupings[1].units).toHaveLength(4);
    }
    expect(lost(report)).toEqual([]);
  });

  test('of one job have counts, and nothing else to say', async () => {
    const report = await reportOf(byOne, {}, jobs.slice(0, 1));
    const day = jobs[0].started_at.slice(0, 10);
    expect(report).toMatchObject({
      jobs: 1,
      period: { from: day, to: day },
      standingOut: [],
      changes: [],
      trainings: [],
    });
    expect(report.undated).toBe(
      new Set(
        readings
          .trim()
          .split('\n')
          .slice(1)
          .map((line) => line.split(',')[0]),
      ).size - 1,
    );
    for (const { fleet } of report.rates) expect(fleet.jobs + fleet.notEvaluated + fleet.missing).toBe(1);
    expect(lost(report)).toEqual([]);
  });

  test('of logs without any record have no job', async () => {
    const report = await inStore(join(tempFolder(), 'store'), async (store) => {
      await ingestFiles(store, { 'readings.csv': readings });
      await judge(store);
      return fleetReport(store, { codes: false });
    });
    expect(report).toMatchObject({ jobs: 0, period: { from: '', to: '' }, standingOut: [], changes: [] });
    expect(report.undated).toBeGreaterThan(20);
  });
});

describe('trainings', () => {
  const trainings = (...rows: string[]) => ({
    'trainings.csv': `training_id,technician_id,held_on,topic\n${rows.join('\n')}\n`,
    'people.csv': 'technician_id,display_name\nada,Quartz Ladle\nnew,Fern Bolt\n',
  });

  test('there may be none', async () => {
    expect((await reportOf(byOne)).trainings).toEqual([]);
  });

  test('of a topic that is no skill, and of none at all, are told of without an effect', async () => {
    const { trainings: told } = await reportOf(
      byOne,
      trainings('1,ada,2025-12-01,knots', '2,ada,2025-12-02,', '3,ada,2025-12-04,leaking'),
    );
    expect(told).toMatchObject([
      { trainingId: '1', technician: { name: 'Quartz Ladle' }, topic: 'knots', skill: null, effect: null },
      { trainingId: '2', day: '2025-12-02', topic: '', skill: null, effect: null },
      { trainingId: '3', skill: { id: 'leaking' }, effect: { before: {}, after: {} } },
    ]);
  });

  test('of somebody without jobs are told of, too, by name', async () => {
    const { trainings: told } = await reportOf(byOne, trainings('1,new,2025-12-03,leaking', '2,new,2025-12-04,knots'));
    expect(told).toMatchObject([
      { trainingId: '1', technician: { id: 'new', name: 'Fern Bolt' }, skill: { id: 'leaking' }, effect: null },
      { trainingId: '2', technician: { id: 'new', name: 'Fern Bolt' }, skill: null, effect: null },
    ]);
  });

  test('of a group whose tests may be left out are held against both: what they showed, and whether they were made', async () => {
    const { trainings: told } = await reportOf(byOne, trainings('1,ada,2025-12-01,rise'));
    expect(told.map(({ skill }) => skill?.id)).toEqual(['rise', 'rise-made']);
  });

  test('without a day or a technician are of nobody', async () => {
    const { trainings: told } = await reportOf(byOne, trainings('1,,2025-12-01,rise', '2,ada,,rise'));
    expect(told).toEqual([]);
  });
});

describe('what cannot be asked', () => {
  test('a report before anything is judged', () =>
    inStore(join(tempFolder(), 'store'), async (store) => {
      await ingestFiles(store, { 'jobs.csv': 'job_id,started_at\na,2026-02-01T09:00:00Z\n' });
      await expect(fleetReport(store, { codes: false })).rejects.toMatchObject({ code: 'not-judged' });
    }));

  test('rates of something that is neither a skill nor a check', () =>
    inStore(join(tempFolder(), 'store'), async (store) => {
      await ingestFiles(store, { 'jobs.csv': 'job_id,started_at\na,2026-02-01T09:00:00Z\n' });
      await judge(store);
      await expect(fleetReport(store, { codes: false, rates: ['rise', 'knots'] })).rejects.toMatchObject({
        code: 'bad-usage',
        message: expect.stringContaining('"knots" is neither a skill'),
      });
    }));
});
