import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import type { CallbackReport, RiskReport } from '../../src/pages/callback-data.ts';
import type { CoachReport } from '../../src/pages/coach-data.ts';
import { dryhold, temporaryFolder } from './dryhold-process.ts';

// Every run is a process of its own, and machines may be busy.
vi.setConfig({ testTimeout: 120_000 });

const folder = temporaryFolder();
const run = (...args: string[]) => dryhold(args, { cwd: folder.path });
const said = (...args: string[]) => {
  const { status, stdout, stderr } = run(...args);
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
    ['simulate', '--jobs', '2000', '--seed', '1', '--out', 'bundle'],
    ['ingest', 'bundle', '--quiet'],
    ['judge', '--quiet'],
    ['simulate', '--jobs', '60', '--seed', '4', '--out', 'few'],
    ['ingest', 'few', '--quiet', '--store', 'few-store'],
    ['judge', '--quiet', '--store', 'few-store'],
  ])
    made.push(run(...args).status);
}, 240_000);
afterAll(() => folder.remove());

test('stores are made', () => {
  expect(made).toEqual([0, 0, 0, 0, 0, 0]);
});

const isOfTable = (line: string): boolean => /\S {2,}\S/.test(line);
const texts = [
  [
    'callbacks',
    [
      'What they were about',
      'Share of jobs with a callback',
      'What foretells callbacks',
      'Latest callbacks',
      'Whether a callback was the fault',
    ],
  ],
  [
    'risk',
    [
      'The likeliest to call back within 90 days',
      'On site',
      'How right such lists would have been',
      'A risk is a share',
    ],
  ],
  ['coach t05', ['1. evacuation', 'What is going well', 'This is for a talk']],
  ['coach crew-birch', ['1. ', 'What is going well', 'This is for a talk']],
] as const;

describe.each(texts)('%s for people', (command, heads) => {
  let told: string | undefined;
  const lines = () => (told ??= said(...command.split(' '))).split('\n');

  test('has its sections in their order, kept apart by one empty line', () => {
    const all = lines();
    const places = heads.map((head) => all.findIndex((line) => line.startsWith(head)));
    expect(places.every((place) => place > 0)).toBe(true);
    expect(places).toEqual(places.toSorted((a, b) => a - b));
    expect(all.join('\n')).not.toMatch(/\n\n\n/);
    expect(all.join('\n')).not.toMatch(/undefined|NaN|null|Infinity|\[object/);
  });

  test('fits a hundred columns but for tables', () => {
    for (const line of lines()) {
      expect(line).toBe(line.trimEnd());
      if (!isOfTable(line)) expect(line.length).toBeLessThanOrEqual(100);
      expect(line.length).toBeLessThanOrEqual(150);
    }
  });

  test('with codes names nobody', () => {
    const text = said(...command.replace('t05', 'P005').replace('crew-birch', 'C002').split(' '), '--codes');
    for (const [id, name] of people()) {
      expect(text).not.toMatch(new RegExp(`\\b${id}\\b`));
      for (const part of name.split(' ')) expect(text).not.toContain(part);
    }
    expect(text).toMatch(/\bP0\d\d\b/);
  });
});

describe('for machines', () => {
  test('callbacks: every callback, and the same bytes again', () => {
    const text = said('callbacks', '--json');
    expect(said('callbacks', '--json')).toBe(text);
    const report = JSON.parse(text) as CallbackReport;
    expect(report.entries).toHaveLength(report.callbacks);
    expect(report.horizonDays).toBe(365);
    const short = JSON.parse(said('callbacks', '--json', '--horizon', '30')) as CallbackReport;
    expect(short.counted).toBeLessThan(report.counted);
    expect(short.traced['beyond-horizon']).toBeGreaterThan(0);
    expect(short.free.groups[0].shares.map(({ ageDays }) => ageDays)).toEqual([30]);
  });

  test('risk: every open job, or as many as are asked for', () => {
    const report = JSON.parse(said('risk', '--json')) as RiskReport;
    expect(report.watchList).toHaveLength(report.openJobs);
    const short = JSON.parse(said('risk', '--json', '--top', '4', '--window', '30')) as RiskReport;
    expect(short.watchList).toHaveLength(4);
    expect(short.windowDays).toBe(30);
    expect(said('risk', '--top', '4').match(/^ {2}\d {2}job-/gm)).toHaveLength(4);
  });

  test('coach: the sheet, and the same with a page beside it', () => {
    const report = JSON.parse(said('coach', 't05', '--json')) as CoachReport;
    expect(report.who).toEqual({ kind: 'technician', id: 't05', name: 'Slate Marmot' });
    expect(JSON.parse(said('coach', 't05', '--json', '--html', 'sheet.html'))).toEqual(report);
    expect(readFileSync(`${folder.path}/sheet.html`, 'utf8')).toMatch(/^<!doctype html>/);
    expect(said('coach', 't05', '--html', 'sheet.html')).toBe('sheet.html\n');
  });
});

describe('of few callbacks', () => {
  test('it is said that nothing can be told, and what can', () => {
    const callbacks = said('callbacks', '--store', 'few-store');
    expect(callbacks).toMatch(/Cannot be told: only \d+ callbacks? counts? so far, and it takes 30/);
    expect(callbacks).not.toContain('times as likely');
    const risk = said('risk', '--store', 'few-store');
    expect(risk).toContain('Which of them are likeliest to call back cannot be told: ');
    expect(risk).toMatch(/are to be expected to call back\s+within 90 days/);
    expect(risk).not.toContain('On site');
    const report = JSON.parse(said('risk', '--json', '--store', 'few-store')) as RiskReport;
    expect(report).toMatchObject({ noList: 'too-few', watchList: [], record: null });
    expect(said('coach', 't05', '--store', 'few-store')).not.toContain('callbacks a year fewer');
  });
});

describe('what cannot be done', () => {
  test.each([
    [['coach', 'nobody'], 2, 'neither a technician nor a crew with judged jobs is "nobody"; there are: '],
    [['coach'], 2, "missing required argument 'who'"],
    [['risk', '--top', 'many'], 2, 'a whole number from 1 is wanted, received "many"'],
    [['risk', '--window', '0'], 2, 'a whole number from 1 is wanted, received "0"'],
    [['callbacks', '--horizon', '-3'], 2, 'a whole number from 1 is wanted'],
    [['callbacks', '--store', 'nowhere'], 3, 'no store here'],
    [['risk', '--bogus'], 2, "unknown option '--bogus'; see: dryhold risk --help"],
    [['coach', 't05', '--html', 'no/such/folder.html'], 3, 'no such folder'],
  ] as const)('%j', (args, status, message) => {
    const result = run(...args);
    expect(result.status).toBe(status);
    expect(result.stderr).toContain(message);
    expect(result.stderr.trimEnd().split('\n')).toHaveLength(1);
    expect(result.stdout).toBe('');
  });
});
