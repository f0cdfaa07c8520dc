import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { CallbackReport, RiskReport } from '../../src/pages/callback-data.ts';
import type { CoachReport } from '../../src/pages/coach-data.ts';
import { skills } from '../../src/fleet/skill.ts';
import { callbackReport, callbackReportOf } from '../../src/steps/callback-report.ts';
import { coachReport, coachReportsOf } from '../../src/steps/coach-report.ts';
import { askedChanges, fleetReport } from '../../src/steps/fleet-report.ts';
import { openCallbacks } from '../../src/steps/open-callbacks.ts';
import { riskReport, riskReportOf } from '../../src/steps/risk-report.ts';
import { trainerFleet } from '../../src/steps/trainer-fleet.ts';
import { whoNeedsSheets } from '../../src/steps/who-needs-sheets.ts';
import type { Store } from '../../src/store/store.ts';
import { lostNumbers } from './lost-numbers.ts';
import { simulatedStore } from './simulated-store.ts';

const folder = mkdtempSync(join(tmpdir(), 'dryhold-callbacks-'));
let store: Store;
let callbacks: CallbackReport;
let risk: RiskReport;

beforeAll(async () => {
  store = await simulatedStore(folder, { jobs: 2500, seed: 3, intervalS: 15 });
  callbacks = await callbackReport(store, { codes: false });
  risk = await riskReport(store, { codes: false, units: 'ip' });
}, 240_000);

afterAll(() => store.close().then(() => rmSync(folder, { recursive: true })));

const one = async <Row extends Record<string, unknown>>(sql: string) => (await store.rows<Row>(sql))[0];

describe('callbacks', () => {
  test('are all told, traced and summed, as SQL straight on the tables has it', async () => {
    const sums = await one<{ n: number; cost: number; named: number; kg: number }>(
      'SELECT count(*) AS n, sum(cost) AS cost, count(job_id) AS named, sum(refrigerant_added_kg) AS kg FROM callbacks',
    );
    expect(callbacks.callbacks).toBe(sums.n);
    expect(callbacks.entries).toHaveLength(sums.n);
    expect(callbacks.causes.reduce((sum, cause) => sum + cause.callbacks, 0)).toBe(sums.n);
    expect(callbacks.causes.reduce((sum, { cost }) => sum + cost, 0)).toBeCloseTo(sums.cost, 6);
    expect(callbacks.causes.reduce((sum, cause) => sum + cause.refrigerantAddedKg, 0)).toBeCloseTo(sums.kg, 9);
    // Of the simulation every job that is named was done before.
    expect(callbacks.traced.job).toBe(sums.named);
    expect(callbacks.traced.job + callbacks.traced.system).toBe(sums.n);
    for (const cause of callbacks.causes)
      expect(cause.reasons.reduce((sum, reason) => sum + reason.callbacks, 0)).toBe(cause.callbacks);
  });

  test('trace to the very job that caused them', () => {
    // The simulation names callbacks after their job.
    for (const { callbackId, jobId } of callbacks.entries) expect(jobId).toBe(callbackId.replace('callback', 'job'));
  });

  test('are told by what was found, where it was written down', async () => {
    const told = new Map(callbacks.entries.map((entry) => [entry.callbackId, entry.cause]));
    const rows = await store.rows<{ callback_id: string; cause_found: string | null }>(
      'SELECT callback_id, cause_found FROM callbacks',
    );
    for (const { callback_id: id, cause_found: found } of rows)
      if (found === null) expect(told.get(id)?.by).not.toBe('cause-found');
      else
        expect(told.get(id)).toMatchObject({
          by: 'cause-found',
          cause: found === 'not refrigerant side' ? 'other' : 'commissioning',
        });
    expect(callbacks.causes.every((cause) => cause.callbacks > 0)).toBe(true);
  });

  test('of flagged jobs come sooner than of clean ones, and what the simulation plants foretells them', () => {
    const [flagged, clean] = callbacks.free.groups;
    expect(flagged.shares[1].low ?? 0).toBeGreaterThan(clean.shares[1].share ?? 1);
    expect(callbacks.free.logRank?.chance).toBeLessThan(0.01);
    const named = callbacks.forerunners?.told.filter(({ isForerunner }) => isForerunner).map(({ skill }) => skill.id);
    expect(named).toContain('rise');
    expect(callbacks.counted).toBeGreaterThanOrEqual(30);
    for (const { found, judged, callbacks: of } of callbacks.forerunners?.told ?? []) {
      expect(of).toBeLessThanOrEqual(found);
      expect(found).toBeLessThanOrEqual(judged);
    }
  });

  test('hold no number that is none', () => {
    // Whether anybody ever called again is a chance of two groups, which both are there.
    expect(lostNumbers(callbacks)).toEqual([]);
    expect(lostNumbers(risk)).toEqual([]);
  });
});

describe('the watch list', () => {
  test('has the open jobs alone, the likeliest first', async () => {
    expect(risk.noList).toBeNull();
    expect(risk.watchList).toHaveLength(risk.openJobs);
    const risks = risk.watchList.map(({ risk: { risk: each } }) => each);
    expect(risks).toEqual(risks.toSorted((a, b) => b - a));
    const called = await store.rows<{ job_id: string }>(
      `SELECT replace(callback_id, 'callback', 'job') AS job_id FROM callbacks WHERE cause_found != 'not refrigerant side'`,
    );
    const ids = new Set(risk.watchList.map(({ jobId }) => jobId));
    for (const { job_id: id } of called) expect(ids.has(id)).toBe(false);
    const followedUp = await store.rows<{ id: string }>(
      'SELECT followup_of_job_id AS id FROM jobs WHERE followup_of_job_id IS NOT NULL',
    );
    for (const { id } of followedUp) expect(ids.has(id)).toBe(false);
  });

  test('tells of each two findings at most, all of which flagged the job, and what to check', async () => {
    const flagged = await store.rows<{ job_id: string; check_id: string }>(
      "SELECT job_id, check_id FROM findings WHERE outcome IN ('suspect', 'fail')",
    );
    const known = new Set(flagged.map(({ job_id, check_id }) => `${job_id} ${check_id}`));
    for (const { jobId, findings, onSite } of risk.watchList) {
      expect(findings.length).toBeLessThanOrEqual(2);
      for (const { checkId, text, ratio } of findings) {
        expect(known.has(`${jobId} ${checkId}`)).toBe(true);
        expect(text).not.toMatch(/\{|undefined/);
        expect(ratio).toBeGreaterThan(1);
      }
      expect(onSite.length > 0).toBe(findings.length > 0);
    }
    expect(risk.watchList[0].findings).toHaveLength(2);
  });

  test('is as long as it is asked for', async () => {
    const short = await riskReport(store, { codes: false, units: 'si', top: 3, windowDays: 30 });
    expect(short.watchList.map(({ jobId }) => jobId)).toHaveLength(3);
    expect(short.expected).toBeLessThan(risk.expected);
  });

  test('of the simulation is worth its while: truth is riskier at its top', async () => {
    await store.run('CREATE OR REPLACE TEMP TABLE truth (job_id VARCHAR, callback_risk DOUBLE)');
    const { simulateFleet } = await import('../../src/simulate/fleet.ts');
    const truth = new Map<string, number>();
    for (const job of simulateFleet({ jobs: 2500, seed: 3, intervalS: 15 }).jobs())
      truth.set(job.truth.job_id, job.truth.callback_risk ?? 0);
    const mean = (of: readonly { jobId: string }[]) =>
      of.reduce((sum, { jobId }) => sum + (truth.get(jobId) ?? 0), 0) / of.length;
    expect(mean(risk.watchList.slice(0, 50))).toBeGreaterThan(4 * mean(risk.watchList));
  }, 60_000);
});

describe('a coaching sheet', () => {
  const sheet = async (who: string): Promise<CoachReport> => (await coachReport(store, who, { codes: false }))('ip');

  test('tells of one to three skills in which more was found, with the jobs that show it', async () => {
    const report = await sheet('t05');
    expect(report.who).toMatchObject({ kind: 'technician', id: 't05' });
    expect(report.topics.length).toBeGreaterThan(0);
    expect(report.topics.length).toBeLessThanOrEqual(3);
    // In the simulation this one holds too short.
    expect(report.topics[0].skill.id).toBe('evacuation');
    expect(report.topics[0].practise[0].checkId).toBe('hold-short');
    for (const { jobs, rate, excess, pair, sureness } of report.topics) {
      expect(rate.found).toBeGreaterThan(rate.expected);
      expect(excess).toBeCloseTo(rate.found - rate.expected, 9);
      expect(['stands-out', 'likely', 'may-be-chance']).toContain(sureness);
      for (const { jobId } of jobs)
        expect(await one(`SELECT technician_id FROM jobs WHERE job_id = '${jobId}'`)).toEqual({ technician_id: 't05' });
      if (pair !== null) {
        expect(jobs.map(({ jobId }) => jobId)).toContain(pair.ownJobId);
        expect(pair.goodJobId).not.toBe(pair.ownJobId);
      }
    }
    expect(report.topics.some(({ pair }) => pair !== null)).toBe(true);
    expect(lostNumbers(report)).toEqual([]);
  });

  test('the good example passed what the other failed', async () => {
    const { topics } = await sheet('t05');
    const [{ pair, practise, skill }] = topics;
    const ids = skill.id === 'evacuation' ? practise.map(({ checkId }) => `'${checkId}'`).join(', ') : "''";
    const outcomes = await store.rows<{ outcome: string }>(
      `SELECT outcome FROM findings WHERE job_id = '${pair?.goodJobId}' AND check_id IN (${ids})`,
    );
    expect(outcomes.map(({ outcome }) => outcome)).toContain('pass');
    expect(outcomes.map(({ outcome }) => outcome)).not.toContain('fail');
  });

  test.each([
    ['a name in any case', 'sLATE marmot', 't05'],
    ['a code', 'p005', 't05'],
    ['a crew', 'crew-birch', 'crew-birch'],
    ['a crew by code', 'C002', 'crew-birch'],
  ])('is found by %s', async (_, who, id) => {
    expect((await sheet(who)).who.id).toBe(id);
  });

  test('of whom a technician and a crew, or two technicians, are called asks for the code', async () => {
    await store.run("UPDATE people SET display_name = 'crew-birch' WHERE technician_id = 't09'");
    expect((await sheet('crew-birch')).who.kind).toBe('crew');
    await store.run("UPDATE people SET display_name = 'Slate Marmot' WHERE technician_id = 't09'");
    await expect(sheet('slate marmot')).rejects.toMatchObject({
      code: 'ambiguous-person',
      message: expect.stringContaining('P005 (technician Slate Marmot), P009 (technician Slate Marmot)'),
    });
    expect((await sheet('P009')).who.id).toBe('t09');
    await store.run("UPDATE people SET display_name = 'Tundra Biscuit' WHERE technician_id = 't09'");
  });

  test('of a crew tells who did its jobs', async () => {
    const { members, ownJobs } = await sheet('crew-birch');
    expect(members.length).toBeGreaterThan(1);
    expect(members.reduce((sum, { jobs }) => sum + jobs, 0)).toBe(ownJobs);
  });

  test('tells what is going well of somebody who stands out in nothing', async () => {
    const reports = await Promise.all(['t01'].map(sheet));
    for (const { goingWell, topics } of reports) {
      for (const { rate } of goingWell) expect(rate.found).toBeLessThan(rate.expected);
      expect(goingWell.length + topics.length).toBeGreaterThan(0);
    }
  });

  test('of nobody says whom there is, by code where codes are asked for', async () => {
    await expect(sheet('nobody')).rejects.toMatchObject({
      code: 'unknown-person',
      message: expect.stringContaining('Slate Marmot (t05)'),
    });
    await expect(coachReport(store, 'nobody', { codes: true })).rejects.toMatchObject({
      message: expect.not.stringContaining('Marmot'),
    });
  });
});

describe('of callbacks that were opened once', () => {
  test('every report says what it says alone, whatever was asked before', async () => {
    const open = await openCallbacks(store, { codes: false });
    const timed = askedChanges(open.fleet);
    const whom = whoNeedsSheets(open.fleet, 3);
    const sheets = await coachReportsOf(store, open, whom);
    const risks = await riskReportOf(store, open);
    expect(risks('ip')).toEqual(risk);
    expect(risks('si')).toEqual(await riskReport(store, { codes: false, units: 'si' }));
    expect(await callbackReportOf(store, open)).toEqual(callbacks);
    for (const sheet of sheets) {
      const alone = await coachReport(store, sheet('ip').who.id, { codes: false });
      for (const units of ['ip', 'si'] as const) expect(sheet(units)).toEqual(alone(units));
    }
    expect(sheets[0]('ip').topics[0].jobs[0].text).not.toBe(sheets[0]('si').topics[0].jobs[0].text);
    const fleet = await trainerFleet(store, open.fleet, {}, timed);
    await timed.close();
    const { standingOut, ...alone } = await fleetReport(store, {
      codes: false,
      rates: skills.map(({ id }) => id),
      kinds: ['technician', 'crew'],
      withInstruments: false,
    });
    expect(standingOut.some(({ unit }) => unit.kind === 'technician')).toBe(true);
    expect(fleet).toEqual({
      ...alone,
      standingOut: standingOut.filter(({ unit }) => unit.kind === 'technician' || unit.kind === 'crew'),
    });
  }, 120_000);

  test('sheets go to who needs them the most, and to everybody where there are enough', async () => {
    const open = await openCallbacks(store, { codes: false });
    const all = whoNeedsSheets(open.fleet, 60);
    const { technicians, crews } = open.fleet.summary;
    expect(new Set(all.map(({ grouping, unit }) => `${grouping} ${unit}`)).size).toBe(technicians + crews);
    expect(whoNeedsSheets(open.fleet, 4)).toEqual(all.slice(0, 4));
    const sheets = (await coachReportsOf(store, open, all)).map((sheet) => sheet('ip'));
    const order = ['stands-out', 'likely', 'may-be-chance', undefined];
    const ranks = sheets.map(({ topics }) => order.indexOf(topics.at(0)?.sureness));
    expect(ranks).toEqual(ranks.toSorted((a, b) => a - b));
    expect(ranks).toContain(0);
    expect(Math.max(...ranks)).toBeGreaterThan(0);
    const { standingOut } = await trainerFleet(store, open.fleet);
    const [first] = sheets;
    expect(standingOut.some(({ unit }) => unit.kind === first.who.kind && unit.id === first.who.id)).toBe(true);
  }, 120_000);
});

test('with codes nobody is named in any report, and free text is left out', async () => {
  await store.run(
    "UPDATE callbacks SET reason = 'Slate Marmot said: low gas; ask crew of T05!' WHERE callback_id = (SELECT min(callback_id) FROM callbacks)",
  );
  const people = await store.rows<{ technician_id: string; display_name: string }>(
    'SELECT technician_id, display_name FROM people',
  );
  const reports = [
    await callbackReport(store, { codes: true }),
    await riskReport(store, { codes: true, units: 'ip', top: 40 }),
    (await coachReport(store, 'P005', { codes: true }))('ip'),
    (await coachReport(store, 'C002', { codes: true }))('si'),
  ].map((report) => JSON.stringify(report));
  for (const report of reports) {
    for (const { technician_id: id, display_name: name } of people) {
      expect(report).not.toMatch(new RegExp(`\\b${id}\\b`, 'i'));
      for (const part of name.split(' ')) expect(report).not.toContain(part);
    }
    expect(report).not.toContain('crew-birch');
  }
  const { entries, causes } = JSON.parse(reports[0]) as CallbackReport;
  for (const { reason, causeFound } of entries) expect([reason, causeFound]).toEqual([null, null]);
  expect(causes.flatMap(({ reasons }) => reasons.map(({ text }) => text))).toContain('leak');
  expect(reports[0]).not.toContain('low gas; ask');
});
