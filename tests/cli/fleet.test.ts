import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { skills } from '../../src/fleet/skill.ts';
import type { FleetReport } from '../../src/pages/fleet-data.ts';
import { dryhold, temporaryFolder } from './dryhold-process.ts';

// Every run is a process of its own, and machines may be busy.
vi.setConfig({ testTimeout: 120_000 });

const folder = temporaryFolder();
const run = (...args: string[]) => dryhold(args, { cwd: folder.path });
const fleet = (...args: string[]) => {
  const { status, stdout, stderr } = run('fleet', ...args);
  expect([status, stderr]).toEqual([0, '']);
  return stdout;
};
const people = () =>
  readFileSync(`${folder.path}/bundle/people.csv`, 'utf8')
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => line.split(','));

const made: (number | null)[] = [];

beforeAll(() => {
  for (const args of [
    ['simulate', '--jobs', '300', '--seed', '3', '--out', 'bundle'],
    ['ingest', 'bundle', '--quiet'],
    ['judge', '--quiet'],
  ])
    made.push(run(...args).status);
}, 120_000);
afterAll(() => folder.remove());

test('a store is made', () => {
  expect(made).toEqual([0, 0, 0]);
});

const sections = [
  'Who stands out',
  'Technicians: found of judged jobs',
  'Changes over time',
  'Trainings: the jobs after them',
  'These are for coaching',
];
const isOfTable = (line: string): boolean => /\S {2,}\S/.test(line);
const lengths = (lines: readonly string[]) => Math.max(...lines.map((line) => line.length));

describe('for people', () => {
  test('the sections in their order, after how much was looked at', () => {
    const lines = fleet().split('\n');
    expect(lines[0]).toMatch(
      /^12 technicians and 4 crews, 300 judged jobs from 1 Jul 2025 to \d\d? Jun 2026, by the policy/,
    );
    const places = sections.map((head) => lines.findIndex((line) => line.startsWith(head)));
    expect(places.every((place) => place > 0)).toBe(true);
    expect(places).toEqual(places.toSorted((a, b) => a - b));
    // Sentences are kept apart by one empty line.
    expect(lines.join('\n')).not.toMatch(/\n\n\n/);
  });

  test('lines fit a hundred columns but for tables, which take no more than 120', () => {
    for (const lines of [fleet(), fleet(...skills.map(({ id }) => id)), fleet('hold-short')].map((text) =>
      text.split('\n'),
    )) {
      expect(lengths(lines.filter((line) => !isOfTable(line)))).toBeLessThanOrEqual(100);
      expect(lengths(lines)).toBeLessThanOrEqual(120);
      for (const line of lines) expect(line).toBe(line.trimEnd());
    }
  });

  test('every technician has a line in the grid, by name', () => {
    const text = fleet();
    for (const [, name] of people()) expect(text).toMatch(new RegExp(`^  ${name} .*%$`, 'm'));
    expect(text).not.toMatch(/undefined|NaN|null|Infinity|\[object/);
  });

  test('rates of what is asked for, each unit of every grouping on a line, and what the columns mean', () => {
    const text = fleet('rise', 'no-rise-test');
    for (const head of ['rise test: ', 'no-rise-test: '])
      expect(text).toMatch(new RegExp(`^${head}\\d+ of \\d+ judged`, 'm'));
    for (const id of ['crew-alder', 'pump-1', 'hose-2', 'gauge-03'])
      expect(text).toMatch(new RegExp(`^  ${id} .*\\d`, 'm'));
    expect(text).not.toContain('Who stands out');
    expect(text).toMatch(/^judged: jobs that could be judged\./m);
    expect(text).not.toMatch(/undefined|NaN|null|Infinity|\[object/);
  });
});

describe('for machines', () => {
  const json = (...args: string[]) => JSON.parse(fleet(...args, '--json')) as FleetReport;

  test('all there is of every skill and check', () => {
    const report = json();
    expect(Object.keys(report).join(' ')).toBe(
      'policyId period jobs undated technicians crews falseDiscoveryLimit tested standingOut lookedAt changes trainings rates',
    );
    expect(report).toMatchObject({ jobs: 300, undated: 0, technicians: 12, crews: 4 });
    expect(report.rates.map(({ kind }) => kind).filter((kind) => kind === 'skill')).toHaveLength(skills.length);
    const [one] = report.standingOut;
    expect(Object.keys(one)).toEqual(['unit', 'skill', 'rate', 'laidTo', 'checks', 'falseDiscoveryShare']);
    expect(one.unit).toEqual({ kind: expect.any(String), id: expect.any(String), name: expect.any(String) });
    expect(one.rate).toMatchObject({
      found: expect.any(Number),
      jobs: expect.any(Number),
      expected: expect.any(Number),
    });
  });

  test('only the rates that are asked for, and the same bytes again', () => {
    expect(json('rise', 'leaking').rates.map(({ skill }) => skill.id)).toEqual(['rise', 'leaking']);
    expect(fleet('--json')).toBe(fleet('--json'));
  });

  test('the text names who stands out as it stands there, but for whose excess is laid to what is shared', () => {
    const text = fleet();
    const ofPeople = json().standingOut.filter(
      ({ unit, laidTo }) => unit.kind === 'technician' && laidTo.verdict !== 'shared',
    );
    expect(ofPeople.length).toBeGreaterThan(0);
    for (const { unit, skill } of ofPeople) expect(text).toContain(`\n  ${unit.name}: ${skill.title}\n`);
  });
});

test('with codes no technician is named, in text, rates or JSON', () => {
  const texts = [fleet('--codes'), fleet('rise', '--codes'), fleet('--codes', '--json')];
  for (const text of texts) {
    expect(text).toContain('P007');
    for (const [id, name] of people()) {
      expect(text).not.toMatch(new RegExp(`\\b${id}\\b`));
      for (const part of name.split(' ')) expect(text).not.toContain(part);
    }
  }
});

describe('what cannot be done', () => {
  test.each([
    [['knots'], 2, '"knots" is neither a skill (pressure-test, '],
    [['--bogus'], 2, "unknown option '--bogus'; see: dryhold fleet --help"],
    [['--store', 'nowhere'], 3, 'nowhere: no store here'],
    [['--store', 'unjudged'], 2, 'nothing is judged yet; run "dryhold judge" first'],
  ])('%j', (args, status, says) => {
    if (args.includes('unjudged')) expect(run('ingest', 'bundle/jobs.csv', '--store', 'unjudged').status).toBe(0);
    const result = run('fleet', ...args);
    expect([result.status, result.stdout]).toEqual([status, '']);
    expect(result.stderr).toMatch(/^dryhold: [^\n]+\n$/);
    expect(result.stderr).toContain(says);
  });
});

test('logs without any record: how many, and no days', () => {
  mkdirSync(`${folder.path}/logs`);
  writeFileSync(`${folder.path}/logs/readings.csv`, 'job_id,elapsed_s,vacuum_pa\na,0,100\nb,0,90\n');
  for (const args of [['ingest', 'logs'], ['judge']]) expect(run(...args, '--store', 'undated').status).toBe(0);
  for (const text of [fleet('--store', 'undated'), fleet('rise', '--store', 'undated')]) {
    const [first, second] = text.split('\n');
    expect(first).toBe('0 technicians and 0 crews, 0 judged jobs, by the policy as-recorded.');
    expect(second).toBe('2 judged jobs without a record of when and by whom: not in here.');
  }
  expect(fleet('--store', 'undated')).toContain('Nobody has ten judged jobs in any skill beside others who have');
});

test('names that a terminal would obey are shown, not obeyed', () => {
  mkdirSync(`${folder.path}/odd`);
  writeFileSync(`${folder.path}/odd/people.csv`, 'technician_id,display_name\nt,Moss \u001b[2JFlute\n');
  writeFileSync(`${folder.path}/odd/jobs.csv`, 'job_id,started_at,technician_id\na,2026-02-01T09:00:00Z,t\n');
  for (const args of [['ingest', 'odd'], ['judge']]) run(...args, '--store', 'odd-store');
  for (const text of [fleet('--store', 'odd-store'), fleet('rise', '--store', 'odd-store')]) {
    expect(text).not.toContain('\u001b');
    expect(text).toContain('Moss');
  }
});

test('help has examples', () => {
  const { status, stdout, stderr } = run('fleet', '--help');
  expect([status, stderr]).toEqual([0, '']);
  expect(stdout).toMatch(/^usage: dryhold fleet \[options\] \[what\.\.\.\]\n/);
  expect(stdout).toMatch(/\nexamples:\n {2}dryhold fleet/);
});
