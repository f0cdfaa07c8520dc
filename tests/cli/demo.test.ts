import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { dryhold, oldNode, type Run, temporaryFolder } from './dryhold-process.ts';
import { writeFiles } from '../write-files.ts';

// Every run is a process of its own, and machines may be busy.
vi.setConfig({ testTimeout: 120_000 });

const folder = temporaryFolder();
let demo: Run;

beforeAll(() => {
  // What a demo leaves behind that was killed when it had removed most of the old one.
  writeFiles(join(folder.path, 'dryhold-demo'), { '.dryhold-demo': '', 'store/catalogue.duckdb': 'half' });
  demo = dryhold(['demo'], { cwd: folder.path, ...(oldNode === undefined ? {} : { node: oldNode }) });
}, 240_000);
afterAll(() => folder.remove());

const store = ['--store', 'dryhold-demo/store'];
const run = (...args: string[]) => dryhold([...args, ...store], { cwd: folder.path });

test('made anew after one that was killed, the demo says nothing but its results, and its last line is the path of the start page', () => {
  expect(demo.status).toBe(0);
  expect(demo.stderr).toBe('');
  const page = demo.stdout.trimEnd().split('\n').at(-1) ?? '';
  expect(page).toBe(join('dryhold-demo', 'report', 'index.html'));
  expect(readFileSync(join(folder.path, page), 'utf8')).toMatch(/^<!doctype html>/);
});

test.skipIf(oldNode === undefined)('Node 20 and Node 24 give the same demo', () => {
  const again = dryhold(['demo', '--json', '--out', 'again'], { cwd: folder.path });
  expect(again.status).toBe(0);
  const report = (out: string) => join(folder.path, out, 'report');
  const pages = (out: string) =>
    readdirSync(report(out), { recursive: true })
      .map(String)
      .filter((name) => name.endsWith('.html'))
      .sort();
  expect(pages('again')).toEqual(pages('dryhold-demo'));
  expect(pages('again').length).toBeGreaterThan(20);
  for (const name of pages('again')) {
    const [one, other] = ['again', 'dryhold-demo'].map((out) => readFileSync(join(report(out), name), 'utf8'));
    expect([name, one === other]).toEqual([name, true]);
  }
  const told = JSON.parse(again.stdout) as { jobs: number; jobsJudged: number; jobsFlagged: number };
  expect(demo.stdout.replaceAll('\u00a0', '')).toContain(
    `${told.jobsFlagged} of ${told.jobsJudged} judged jobs have a fail or suspect finding; ${told.jobs - told.jobsJudged} could not be judged.`,
  );
});

test('the job that the demo tells to look at is flagged, and its line can be typed as it stands', () => {
  const [, line = ''] =
    /Look at the job to go back to first with: npx --no-install dryhold (.*)/.exec(demo.stdout) ?? [];
  const shown = dryhold(line.split(' '), { cwd: folder.path });
  expect(shown.status).toBe(0);
  expect(shown.stdout).toMatch(/^FAIL /m);
  const job = JSON.parse(run('show', line.split(' ')[1] ?? '', '--json').stdout) as { findings: { outcome: string }[] };
  expect(job.findings.map(({ outcome }) => outcome)).toContain('fail');
});

test('what the demo counts is what a query counts', () => {
  const { stdout } = run(
    'query',
    `select count(distinct job_id)::int as flagged from findings where outcome in ('fail', 'suspect')`,
    '--json',
  );
  const [row] = JSON.parse(stdout) as { flagged: number }[];
  expect(demo.stdout.replaceAll('\u00a0', '')).toContain(` ${row?.flagged} of `);
});

describe('a folder that no demo made', () => {
  test('is left alone', () => {
    mkdirSync(join(folder.path, 'mine', 'report'), { recursive: true });
    writeFileSync(join(folder.path, 'mine', 'report', 'index.html'), 'mine');
    const { status, stdout, stderr } = dryhold(['demo', '--out', 'mine'], { cwd: folder.path });
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toBe(
      'dryhold: mine holds files that no demo wrote, and the demo makes its folder anew; give --out another folder\n',
    );
    expect(readFileSync(join(folder.path, 'mine', 'report', 'index.html'), 'utf8')).toBe('mine');
  });

  test('and a file in the way is told', () => {
    writeFileSync(join(folder.path, 'file'), '');
    const { status, stderr } = dryhold(['demo', '--out', 'file'], { cwd: folder.path });
    expect(status).toBe(3);
    expect(stderr).toBe('dryhold: file: cannot be used: a file is in the way where a folder should be\n');
    expect(existsSync(join(folder.path, 'file'))).toBe(true);
  });
});
