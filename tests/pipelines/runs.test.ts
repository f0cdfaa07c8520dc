import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as delay } from 'node:timers/promises';
import { afterAll, describe, expect, test, vi } from 'vitest';
import { runStep } from '../../src/cli/run/run-step.ts';
import { withStore } from '../../src/cli/with-store.ts';
import { Store } from '../../src/store/store.ts';
import { command, samples, temporaryFolder } from '../cli/dryhold-process.ts';

vi.setConfig({ testTimeout: 120_000 });

const home = temporaryFolder();
afterAll(() => home.remove());

/** A shop's folder of its own, with declared runs of the project, and files of a sample in its drop folder. */
function shop(name: string, runs: readonly string[], sample?: string): string {
  const folder = join(home.path, name);
  mkdirSync(join(folder, 'drop'), { recursive: true });
  for (const run of runs) copyFileSync(new URL(`../../pipelines/runs/${run}`, import.meta.url), join(folder, run));
  if (sample !== undefined) drop(folder, sample);
  return folder;
}

function drop(folder: string, sample: string): void {
  for (const file of readdirSync(join(samples, sample)).filter((each) => each.endsWith('.csv')))
    copyFileSync(join(samples, sample, file), join(folder, 'drop', file));
}

/** A run of ours, beside the declared ones. */
function writeRun(folder: string, name: string, steps: readonly object[]): void {
  writeFileSync(join(folder, `${name}.json`), JSON.stringify({ name, title: 'Trial', log: `${name}.log`, steps }));
}

interface Started {
  readonly child: ChildProcess;
  readonly said: () => string;
  /** Waits until it said something. */
  readonly until: (text: string) => Promise<void>;
  /** Its status or signal, and what it said. */
  readonly ended: Promise<{ end: number | string; stdout: string; stderr: string }>;
}

/** Starts `dryhold run` elsewhere than in the folder of the file. */
function start(folder: string, ...args: string[]): Started {
  const [file = '', ...options] = args;
  const child = spawn(process.execPath, [command, 'run', join(folder, file), ...options], { cwd: home.path });
  // One that a failed test left goes on watching for ever.
  afterAll(() => child.kill('SIGKILL'));
  let stdout = '';
  let stderr = '';
  child.stdout.on('data', (block) => (stdout += String(block)));
  child.stderr.on('data', (block) => (stderr += String(block)));
  const ended = once(child, 'close').then(([status, signal]) => ({
    end: (status ?? signal) as number | string,
    stdout,
    stderr,
  }));
  const until = async (text: string) => {
    for (let waited = 0; !stdout.includes(text) && waited < 60_000; waited += 20) await delay(20);
    expect(stdout).toContain(text);
  };
  return { child, said: () => stdout, until, ended };
}

/** A log without its times, which it must have, and without how long things took. */
function plain(log: string): string {
  const lines = log.split('\n').slice(0, -1);
  expect(lines.filter((line) => !/^\d{4}-\d\d-\d\d \d\d:\d\d:\d\d /.test(line))).toEqual([]);
  return lines.map((line) => `${line.slice(20).replaceAll(/\d+(\.\d)? (s|min)\b/g, '#')}\n`).join('');
}

describe.concurrent('declared runs', () => {
  test('weekly takes in, judges, reports and lists what is due; month-end reports on the month before', async () => {
    const folder = shop('weekly', ['weekly.json', 'month-end.json'], 'bundle-csv');
    const { end, stdout, stderr } = await start(folder, 'weekly.json', '--on', '2026-12-07').ended;
    expect([end, stderr]).toEqual([1, '']);
    expect(readFileSync(join(folder, 'weekly.log'), 'utf8')).toBe(stdout);
    const log = plain(stdout);
    expect(log).toContain('    drop/readings.csv: 286 rows kept, 1 refused\n');
    expect(log).toMatch(/^ {4}W-103 fail: Within # of valve-off/m);
    expect(log).toContain('  done in #: weekly/2026-W50/due.csv\n');
    expect(log).toMatch(/weekly: ended with status 1: look at step 1 \(ingest\), 2 \(judge\), in #\n$/);
    expect(existsSync(join(folder, 'weekly', '2026-W50', 'report', 'index.html'))).toBe(true);
    expect(readFileSync(join(folder, 'weekly', '2026-W50', 'due.csv'), 'utf8')).toMatch(/^state,due_on,what/);

    const month = await start(folder, 'month-end.json', '--on', '2026-12-01', '--json').ended;
    expect([month.end, month.stderr]).toEqual([0, '']);
    const steps = JSON.parse(month.stdout) as { do: string; status: number; seconds: number }[];
    expect(steps.map((step) => [step.do, step.status])).toEqual(
      ['judge', 'report', 'accounts', 'leaks', 'export', 'export', 'export'].map((name) => [name, 0]),
    );
    for (const { seconds } of steps) expect(seconds).toBeGreaterThan(0);
    expect(readdirSync(join(folder, 'month-end', '2026-11')).sort()).toEqual([
      'facts.parquet',
      'findings.parquet',
      'jobs.parquet',
      'leaks.csv',
      'refrigerant-by-crew.csv',
      'report',
    ]);
    expect(plain(readFileSync(join(folder, 'month-end.log'), 'utf8'))).toMatch(/^month-end: all went well, in #$/m);
  });

  test('drop-folder begins with what lies there, tells a broken file once, takes in what comes after it, and ends at SIGTERM', async () => {
    const folder = shop('drop-folder', ['drop-folder.json'], 'bundle-csv');
    const run = start(folder, 'drop-folder.json');
    await run.until('drop-folder: ended with status 1: look at step 1 (ingest), 2 (judge)');
    writeFileSync(join(folder, 'drop', 'weighings.csv'), Buffer.alloc(3000));
    await run.until('drop-folder: ended with status 1: look at step 1 (ingest), in');
    mkdirSync(join(folder, 'drop', '{late}'));
    writeFileSync(join(folder, 'drop', '{late}', 'people.csv'), 'technician_id\nt77\n');
    await run.until('drop-folder: all went well');
    run.child.kill('SIGTERM');
    const { end, stdout, stderr } = await run.ended;
    expect([end, stderr]).toEqual([1, '']);
    const log = plain(stdout);
    expect(log.split('refused: no text file')).toHaveLength(2);
    expect(log).not.toContain('already in');
    expect(log).toContain(
      'drop-folder: 1 file came: drop/{late}/people.csv\nstep 1 of 4: dryhold ingest drop --whole (',
    );
    expect(log).toContain('    drop/{late}/people.csv: 1 row kept\n');
    expect(log).toContain('drop-folder: 3 files came: drop/jobs.csv, drop/people.csv, drop/readings.csv\n');
    expect(log).toContain('drop-folder: 1 file came: drop/weighings.csv\n');
    expect(log).toContain('    drop/weighings.csv: refused: no text file: it holds NUL bytes\n');
    expect(log).toContain('    0 jobs judged by policy as-recorded\n');
    expect(log).toMatch(/drop-folder: ended by SIGTERM after 3 rounds, status 1\n$/);
    expect(existsSync(join(folder, 'report', 'index.html'))).toBe(true);
    expect(readFileSync(join(folder, 'refused.csv'), 'utf8')).toContain(
      'drop/weighings.csv,0,weighings,file-unreadable',
    );
  });

  test('after a step that broke off the rest is not run, unless it says go-on; what was there before stays', async () => {
    const folder = shop('broken', []);
    writeRun(folder, 'broken', [
      { do: 'ingest', path: ['drop'], or: 'go-on' },
      { do: 'plan', refrigerant: 'R-410A', volume: '5L', time: '15min', into: 'plans/{last-month-end}.txt' },
      { do: 'show', job: 'J-1', into: 'kept.txt' },
      { do: 'saturation', refrigerant: 'R-410A', value: ['-20F'] },
    ]);
    writeFileSync(join(folder, 'kept.txt'), 'as it was');
    const { end, stdout } = await start(folder, 'broken.json', '--on', '2026-12-01', '--quiet').ended;
    expect(end).toBe(3);
    const printed = plain(stdout);
    expect(printed).toMatch(
      /^step 1 of 4: dryhold ingest drop .*\n {4}dryhold: drop: nothing to read here; .*\n {2}something cannot be read or written \(status 3\): .* \(#\); the run goes on\nstep 3 of 4: /,
    );
    expect(printed).toMatch(
      / {4}dryhold: no job "J-1" .*\n {2}cannot be done as it is written \(status 2\): .*; 1 step after it not run\n/,
    );
    expect(printed).toMatch(
      /broken: ended with status 3: look at step 1 \(ingest\), 3 \(show\); not run: step 4 \(saturation\), in #\n$/,
    );
    // The log has what needs nobody as well.
    expect(plain(readFileSync(join(folder, 'broken.log'), 'utf8'))).toMatch(
      /^broken: Trial\nstep 1 .*(\n.*)*step 2 of 4: dryhold plan .*> plans\/2026-11-30.txt .*\n {2}done in #: /,
    );
    expect(readFileSync(join(folder, 'plans', '2026-11-30.txt'), 'utf8')).toContain('15 min');
    expect(readFileSync(join(folder, 'kept.txt'), 'utf8')).toBe('as it was');
    expect(readdirSync(folder).filter((name) => name.includes('.part'))).toEqual([]);
  });

  test('a run waits for a store that is in use, and is not begun twice', async () => {
    const folder = shop('busy', []);
    writeRun(folder, 'busy', [{ do: 'judge' }]);
    const store = join(folder, 'dryhold-store');
    const held = await Store.open(store, 'write');
    const run = start(folder, 'busy.json');
    try {
      await run.until('waiting for up to 10min');
      expect(run.said()).toContain(`store is in use by process ${process.pid}`);
      const second = await start(folder, 'busy.json').ended;
      expect([second.end, second.stdout]).toEqual([3, '']);
      expect(second.stderr).toMatch(
        new RegExp(`busy.json: this run is under way already \\(process ${run.child.pid}, since [-\\d]+ [:\\d]+\\)`),
      );
      const ask = { store, wait: '1s', quiet: true };
      const startMs = performance.now();
      await expect(withStore(ask, 'read', async () => undefined)).rejects.toMatchObject({ code: 'store-busy' });
      expect(performance.now() - startMs).toBeGreaterThan(900);
    } finally {
      await held.close();
    }
    const { end, stdout } = await run.ended;
    expect(end).toBe(0);
    expect(plain(stdout)).toMatch(/ {4}0 jobs judged by policy as-recorded\n(.*\n)*busy: all went well, in #\n$/);
  });

  test('a signal ends the step under way and the run, and its log says so', async () => {
    const folder = shop('stopped', []);
    writeRun(folder, 'stopped', [{ do: 'simulate', jobs: 50_000, out: 'fleet' }, { do: 'judge' }]);
    const run = start(folder, 'stopped.json');
    await run.until('step 1 of 2');
    for (let waited = 0; !existsSync(join(folder, 'fleet')) && waited < 20_000; waited += 20) await delay(20);
    run.child.kill('SIGTERM');
    const { end, stdout } = await run.ended;
    expect(end).toBe('SIGTERM');
    expect(plain(stdout)).toMatch(
      / {4}dryhold: interrupted; .*\n {2}stopped by SIGTERM; what was under way is undone \(#\); 1 step after it not run\nstopped: stopped by SIGTERM; not run: step 2 \(judge\), in #\n$/,
    );
    expect(existsSync(join(folder, 'dryhold-store'))).toBe(false);
  });

  test('a step that is killed is told by the signal, as a shell does', async () => {
    const ended = new AbortController();
    const step = { do: 'simulate', summary: '', typed: '', makes: [], goOn: false };
    const args = ['simulate', '--jobs=50000', '--out=fleet'];
    const folder = shop('killed', []);
    const end = runStep({ ...step, args }, { folder, onLine: () => undefined, stop: ended.signal });
    ended.abort('SIGKILL');
    expect(await end).toMatchObject({ status: 137, signal: 'SIGKILL' });
  });
});
