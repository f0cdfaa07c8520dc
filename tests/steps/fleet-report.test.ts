import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { checks } from '../../src/checks/checks.ts';
import { skills } from '../../src/fleet/skill.ts';
import type { FleetReport, RatesReport } from '../../src/pages/fleet-data.ts';
import { fleetRates, fleetReport } from '../../src/steps/fleet-report.ts';
import type { Store } from '../../src/store/store.ts';
import { simulatedStore } from './simulated-store.ts';

// Every count of the report against SQL that is written here, straight on the tables findings and jobs.

const folder = mkdtempSync(join(tmpdir(), 'dryhold-fleet-report-'));
let store: Store;
let report: FleetReport;

beforeAll(async () => {
  store = await simulatedStore(folder, { jobs: 400, seed: 1 });
  report = await fleetReport(store, { codes: false });
}, 120_000);

afterAll(async () => {
  await store.close();
  rmSync(folder, { recursive: true });
});

/** The column of the record that names the unit; the simulation names the crew of every job. */
const columns: Readonly<Record<string, string>> = {
  technician: 'technician_id',
  crew: 'crew_id',
  pump: 'pump_id',
  'hose-set': 'hose_set_id',
  gauge: 'gauge_id',
  scale: 'scale_id',
};

/** What a skill came to in each job: of several checks any that flags counts, then any that judged, then any without data. */
function perJob({ skill }: RatesReport): string {
  const known = skills.find(({ id }) => id === skill.id);
  const ids = (known?.checkIds ?? [skill.id]).map((id) => `'${id}'`).join(', ');
  const any = (outcomes: string) => `bool_or(outcome IN (${outcomes}))`;
  const cases =
    known?.by === 'missing'
      ? `CASE WHEN ${any("'missing'")} THEN 'found' ELSE 'clean' END`
      : `CASE WHEN ${any("'fail', 'suspect'")} THEN 'found' WHEN ${any("'pass'")} THEN 'clean'
           WHEN ${any("'missing'")} THEN 'missing' ELSE 'not-evaluated' END`;
  return `SELECT j.*, ${cases} AS came_to FROM findings JOIN jobs j USING (job_id) WHERE check_id IN (${ids}) GROUP BY ALL`;
}

const counted = `count(*) FILTER (came_to = 'found') AS found, count(*) FILTER (came_to IN ('found', 'clean')) AS jobs,
  count(*) FILTER (came_to = 'not-evaluated') AS "notEvaluated", count(*) FILTER (came_to = 'missing') AS missing`;

describe('rates', () => {
  test('are given of every skill and every check, unless some are asked for', async () => {
    expect(report.rates.map(({ skill, kind }) => [skill.id, kind])).toEqual([
      ...skills.map(({ id }) => [id, 'skill']),
      ...checks.map(({ id }) => [id, 'check']),
    ]);
    const asked = await fleetReport(store, { codes: false, rates: ['leaking', 'charge'] });
    expect(asked.rates.map(({ skill }) => skill.id)).toEqual(['leaking', 'charge']);
    for (const rates of asked.rates)
      expect(report.rates.find(({ skill }) => skill.id === rates.skill.id)).toEqual(rates);
    expect(asked.standingOut).toEqual(report.standingOut);
  });

  test('alone are the same, without anything else', async () => {
    const { rates, ...summary } = await fleetRates(store, { codes: false, rates: ['leaking', 'charge'] });
    expect(rates).toEqual(report.rates.filter(({ skill }) => ['leaking', 'charge'].includes(skill.id)).reverse());
    expect(Object.keys(summary)).toEqual(['policyId', 'period', 'jobs', 'undated', 'technicians', 'crews']);
    expect(report).toMatchObject(summary);
  });

  test('without instruments have own effects of people and crews alone, and all else alike', async () => {
    const { rates } = await fleetReport(store, { codes: false, rates: ['rise'], withInstruments: false });
    const own = (of: RatesReport) => of.groupings.map(({ kind, ownSpread }) => [kind, ownSpread !== null]);
    const [asked, whole] = [rates[0], report.rates.find(({ skill }) => skill.id === 'rise') as RatesReport];
    expect(own(asked).filter(([, isKnown]) => isKnown)).toEqual([
      ['technician', true],
      ['crew', true],
    ]);
    expect(own(whole).filter(([, isKnown]) => isKnown).length).toBeGreaterThan(2);
    const counts = ({ groupings }: RatesReport) =>
      groupings.map(({ units }) => units.map(({ found, expected, chance }) => [found, expected, chance]));
    expect(counts(asked)).toEqual(counts(whole));
  });

  test('of the fleet count what its jobs came to; not judged and nothing to judge by stand apart', async () => {
    for (const rates of report.rates) {
      const [row] = await store.rows(`SELECT ${counted} FROM (${perJob(rates)})`);
      expect([rates.skill.id, rates.fleet]).toEqual([rates.skill.id, row]);
      const { jobs, notEvaluated, missing } = rates.fleet;
      expect(jobs + notEvaluated + missing).toBe(400);
    }
    const all = report.rates.map(({ fleet }) => fleet);
    expect(all.some(({ notEvaluated, missing }) => notEvaluated > 0 && missing > 0 && notEvaluated !== missing)).toBe(
      true,
    );
  });

  test('of every technician, crew and instrument count what their jobs came to', async () => {
    for (const rates of report.rates)
      for (const { kind, units } of rates.groupings) {
        const rows = await store.rows(
          `SELECT ${columns[kind]} AS id, ${counted} FROM (${perJob(rates)}) WHERE id IS NOT NULL GROUP BY ALL ORDER BY id`,
        );
        const told = units.map(({ unit, found, jobs, notEvaluated, missing }) => ({
          id: unit.id,
          found,
          jobs,
          notEvaluated,
          missing,
        }));
        expect([rates.skill.id, kind, told]).toEqual([rates.skill.id, kind, rows]);
      }
  });

  test('of technicians add up to those of the fleet, and so do those of crews', () => {
    for (const { fleet, groupings } of report.rates)
      for (const { kind, units } of groupings.slice(0, 2)) {
        const sum = (of: (unit: (typeof units)[number]) => number) =>
          units.reduce((total, unit) => total + of(unit), 0);
        expect([kind, sum(({ found }) => found), sum(({ jobs }) => jobs)]).toEqual([kind, fleet.found, fleet.jobs]);
        expect(sum(({ notEvaluated }) => notEvaluated)).toBe(fleet.notEvaluated);
        expect(sum(({ missing }) => missing)).toBe(fleet.missing);
      }
  });
});

test('jobs, people and period', async () => {
  const [row] = await store.rows(
    `SELECT count(*) AS jobs, count(DISTINCT technician_id) AS technicians, count(DISTINCT crew_id) AS crews,
       min(started_at)[1:10] AS first, max(started_at)[1:10] AS last FROM jobs`,
  );
  const { jobs, technicians, crews, period } = report;
  expect({ jobs, technicians, crews, first: period.from, last: period.to }).toEqual(row);
  expect([report.undated, report.policyId]).toEqual([0, 'as-recorded']);
});

test('the checks behind who stands out are counted of the same jobs', async () => {
  expect(report.standingOut.flatMap((one) => one.checks).length).toBeGreaterThan(5);
  for (const { unit, checks: shares, skill } of report.standingOut) {
    const checkIds = skills.find(({ id }) => id === skill.id)?.checkIds ?? [];
    for (const { checkId, unit: own, all } of shares) {
      const counts = (where: string) =>
        store.rows(
          `SELECT count(*) FILTER (outcome IN ('suspect', 'fail')) AS found, count(*) AS jobs
           FROM findings JOIN jobs USING (job_id)
           WHERE check_id = '${checkId}' AND outcome IN ('pass', 'suspect', 'fail') AND ${where}`,
        );
      expect(checkIds).toContain(checkId);
      expect(await counts(`${columns[unit.kind]} = '${unit.id}'`)).toEqual([own]);
      expect(await counts('true')).toEqual([all]);
    }
    const excesses = shares.map(({ unit: own, all }) => own.found - (own.jobs * all.found) / all.jobs);
    expect(excesses).toEqual(excesses.toSorted((a, b) => b - a));
    expect(Math.min(1, ...excesses)).toBeGreaterThan(0);
  }
});

test('a change names the job that told of it and the one that it began with, both of that unit', async () => {
  expect(report.changes.length).toBeGreaterThan(0);
  const rows = await store.rows<Record<string, string>>('SELECT * FROM jobs');
  const job = new Map(rows.map((row) => [row.job_id, row]));
  for (const { unit, jobId, day, sinceJobId, sinceDay } of report.changes) {
    const [told, began] = [job.get(jobId), job.get(sinceJobId)];
    expect([told?.started_at.slice(0, 10), began?.started_at.slice(0, 10)]).toEqual([day, sinceDay]);
    expect(sinceDay <= day).toBe(true);
    if (unit.kind !== 'fleet') for (const row of [told, began]) expect(row?.[columns[unit.kind]]).toBe(unit.id);
  }
});

test('a training counts the judged jobs of its technician up to its day, and after it', async () => {
  expect(report.trainings.map(({ trainingId }) => trainingId)).toEqual(['training-2', 'training-3', 'training-1']);
  for (const { technician, day, skill, effect } of report.trainings) {
    const rates = report.rates.find((each) => each.skill.id === skill?.id);
    const rows = await store.rows(
      `SELECT ${counted.split(',').slice(0, 3).join(',')} FROM (${perJob(rates as RatesReport)})
       WHERE technician_id = '${technician.id}' GROUP BY started_at[1:10] > '${day}' ORDER BY started_at[1:10] > '${day}'`,
    );
    expect(rows).toEqual([effect?.before, effect?.after].map((side) => ({ found: side?.found, jobs: side?.jobs })));
  }
});

test('codes stand for every name and id of a technician, and change nothing else', async () => {
  const coded = await fleetReport(store, { codes: true });
  const text = JSON.stringify(coded);
  const people = await store.rows<{ technician_id: string; display_name: string }>('SELECT * FROM people');
  expect(people).toHaveLength(12);
  for (const { technician_id, display_name } of people) {
    expect(text).not.toContain(`"${technician_id}"`);
    expect(text).not.toContain(display_name);
    for (const part of display_name.split(' ')) expect(text).not.toContain(part);
  }
  expect(text).not.toMatch(/\bt(0\d|1[0-2])\b/);
  const figures = (of: FleetReport) => of.rates.map(({ groupings }) => groupings[0].units.map(({ found }) => found));
  expect(figures(coded)).toEqual(figures(report));
  const codes = coded.rates[0].groupings[0].units.map(({ unit }) => [unit.id, unit.name]);
  expect(codes).toEqual(people.map((_, at) => [0, 0].map(() => `P${String(at + 1).padStart(3, '0')}`)));
});

test('asked twice it says the same', async () => {
  expect(await fleetReport(store, { codes: false })).toEqual(report);
});
