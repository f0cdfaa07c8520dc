import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, test, vi } from 'vitest';
import { dryholdProgram } from '../../src/cli/program.ts';
import { runBare } from './bare.ts';
import { benchPage, benchTable } from './bench-page.ts';
import { type BenchRow, meetsGoal } from './bench-row.ts';
import { runDraw } from './draw.ts';
import { goals } from './goals.ts';
import { dryhold, ownProcess, type RunScript } from './measured-process.ts';
import { timeByGroup } from './profile-groups.ts';
import { benchRows, parts } from './run-bench.ts';
import { timed } from './timing.ts';

const folder = mkdtempSync(join(tmpdir(), 'dryhold-bench-test-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Without a process for each, of which every start would take longer than what is measured. */
const here: RunScript = async (script, args) => {
  let stdout = '';
  const timing = await timed(async () => {
    if (script === dryhold) stdout = await answerOf(args);
    else stdout = await (script.endsWith('draw.ts') ? runDraw(args) : runBare(args));
  });
  return { ...timing, stdout, peakMiB: process.resourceUsage().maxRSS / 1024 };
};

async function answerOf(args: readonly string[]): Promise<string> {
  let said = '';
  const listening = vi.spyOn(process.stdout, 'write').mockImplementation((chunk) => {
    said += String(chunk);
    return true;
  });
  try {
    await dryholdProgram(() => undefined).parseAsync([...args], { from: 'user' });
    return said;
  } finally {
    listening.mockRestore();
  }
}

test('a run gives every row but those of pages with its figure, and says so where polars is missing', async () => {
  const rows = await benchRows({
    sizes: [3000],
    readingsPerJob: 150,
    // Pages take as long as all the rest.
    only: parts.filter((part) => part !== 'report'),
    rounds: 1,
    seed: 1,
    folder,
    python: 'python3',
    wholeJobs: 2,
    year: { jobs: 3, dayJobs: 1, readingsPerJob: 150 },
    commands: ['judge'],
    run: here,
    say: () => undefined,
  });
  const ofVacuumLogs = [
    'drawn',
    'bare read of CSV into a table',
    'ingest from CSV',
    'speed of ingest from CSV over that of the bare read',
    'bare read of Parquet into a table',
    'ingest from Parquet',
    'speed of ingest from Parquet over that of the bare read',
    'bare scan of the same columns of the store',
    'judge',
    'most memory of judging',
    'time of judge over that of the bare scan',
    'polars script',
  ];
  const named = rows.map(({ what }) => what);
  expect(named).toEqual(
    expect.arrayContaining([
      ...ofVacuumLogs.flatMap((what) => [`3e2 vacuum readings: ${what}`, `3e3 vacuum readings: ${what}`]),
      ...['show of one job', 'query of the readings of one job'].map((what) => `3e3 vacuum readings: ${what}`),
      ...['CSV', 'Parquet'].map((kind) => `growth from 3e2 to 3e3 readings: time of ingest from ${kind}`),
      'growth from 3e2 to 3e3 readings: time of judge',
      ...ofVacuumLogs.slice(0, 4).map((what) => `2 whole logs: ${what}`),
      '2 whole logs: judge',
      ...['ingest', 'judge', 'both, beyond two starts'].map((what) => `a day of 1 jobs added to 3: ${what}`),
      'start-up: --version',
      'start-up: the slowest of 1 commands (judge --help)',
      'start-up: the slowest of 1 commands, with NODE_COMPILE_CACHE (judge --help)',
    ]),
  );
  const figuresOf = ({ seconds, rowsPerS, peakMiB, ratio }: BenchRow) =>
    [seconds, rowsPerS, peakMiB, ratio].filter((figure) => figure !== undefined);
  const without = rows.filter((row) => {
    const figures = figuresOf(row);
    return row.skipped === undefined && !(figures.length > 0 && figures.every((each) => each >= 0 && each < Infinity));
  });
  expect(without).toEqual([]);
  for (const row of rows.filter(({ what }) => what.endsWith('polars script')))
    expect(row.skipped ?? `${row.seconds} s`).toMatch(/has no polars.*pip install polars|^[\d.]+ s$/);
  expect(benchTable(rows).split('\n')).toHaveLength(rows.length + 1);
}, 120_000);

test('a process of its own tells its time, CPU time and memory', async () => {
  const script = fileURLToPath(new URL('tells-usage.mjs', import.meta.url));
  const ran = await ownProcess(script, []);
  expect(ran.cpuSeconds).toBeGreaterThan(0.01);
  expect(ran.seconds).toBeGreaterThan(0.01);
  expect(ran.peakMiB).toBeGreaterThan(10);
});

const planted: readonly (readonly [string, BenchRow, boolean | undefined])[] = [
  ['as fast as asked', { what: 'a', rowsPerS: 20e6, goal: goals.judgeRate }, true],
  ['too slow', { what: 'a', rowsPerS: 19.9e6, goal: goals.judgeRate }, false],
  ['growing as asked', { what: 'a', ratio: 10.5, goal: goals.growth }, true],
  ['growing too fast', { what: 'a', ratio: 10.6, goal: goals.growth }, false],
  ['too much memory', { what: 'a', peakMiB: 1537, goal: goals.judgeMemory }, false],
  ['not measured', { what: 'a', skipped: 'no polars', goal: goals.polarsOverJudge }, undefined],
  ['without a goal', { what: 'a', ratio: 3 }, undefined],
];

test.each(planted)('a goal is held against the figure: %s', (_, row, meets) => {
  expect(meetsGoal(row)).toBe(meets);
  expect(benchTable([row]).includes('MISSED')).toBe(meets === false);
  expect(benchPage([row], 'a machine', [])).toContain(
    meets === undefined ? 'Of 0 goals' : `Of 1 goals ${meets ? 1 : 0} are met`,
  );
});

test('time of a profile is counted for what asked for it', () => {
  const node = (id: number, functionName: string, url: string, children: number[] = []) => ({
    id,
    callFrame: { functionName, url },
    children,
  });
  const times = timeByGroup({
    nodes: [
      node(1, '(root)', '', [2, 5]),
      node(2, 'fitRise', 'file:///x/src/facts/rise/rise-fit.ts', [3]),
      node(3, 'constructor', 'file:///x/src/numerics/line-fit.ts'),
      node(5, '(idle)', ''),
    ],
    samples: [2, 3, 5],
    timeDeltas: [1e6, 2e6, 4e6],
  });
  expect(Object.fromEntries(times)).toEqual({ 'rise fits': 3, idle: 4 });
});
