import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as delay } from 'node:timers/promises';
import { expect, onTestFinished, test, vi } from 'vitest';
import { dryholdProgram } from '../../../src/cli/program.ts';
import { readRun } from '../../../src/cli/run/declared-run.ts';
import { RunLog } from '../../../src/cli/run/run-log.ts';
import { fitsCommandLine, watchRun } from '../../../src/cli/run/watch-run.ts';
import { tempFolder, writeFiles } from '../../store/temp-store.ts';

/** A watch in this process, whose clock the test moves; its log and what ends it. */
function watching(folders: readonly string[], files: Record<string, string> = {}) {
  const declared = { name: 'trial', title: 'Trial', log: 'log', watch: folders, steps: [{ do: 'show', job: 'J-1' }] };
  const folder = writeFiles(tempFolder(), { 'run.json': JSON.stringify(declared), ...files });
  const run = readRun(join(folder, 'run.json'), dryholdProgram(), {});
  const day = () => '2026-12-01';
  const ended = new AbortController();
  const result = watchRun(run, {
    log: new RunLog({ ...run, print: 'all', to: { write: () => true }, day }),
    day,
    stop: ended.signal,
    onRound: () => undefined,
    everyMs: 20,
    quietMs: 100,
  });
  const logged = () => readFileSync(join(folder, 'log'), 'utf8').replaceAll(/^[-\d]+ [:\d]+ /gm, '');
  return { folder, result, logged, end: () => ended.abort('SIGTERM') };
}

test('a round that broke off is tried again after an hour, then after two', async () => {
  vi.useFakeTimers({ toFake: ['Date'] });
  onTestFinished(() => void vi.useRealTimers());
  const { result, logged, end } = watching(['drop'], { 'drop/a.csv': 'a\n' });
  const count = (text: string) => logged().split(text).length - 1;
  const until = async (text: string, times: number) => {
    for (let waited = 0; count(text) < times && waited < 20_000; waited += 20) await delay(20);
    await delay(100);
    expect([text, count(text)]).toEqual([text, times]);
  };
  const laterBy = (minutes: number) => vi.setSystemTime(Date.now() + minutes * 60_000);
  const roundEnd = 'trial: ended with status 3: look at step 1 (show)';
  await until(roundEnd, 1);
  laterBy(59);
  await until('is tried again', 0);
  laterBy(2);
  await until(roundEnd, 2);
  laterBy(61);
  await until(roundEnd, 2);
  laterBy(60);
  await until(roundEnd, 3);
  expect(logged()).toContain(
    'trial: 1 file came: drop/a.csv\nstep 1 of 1: dryhold show J-1 (one job with its evidence)\n',
  );
  end();
  expect(await result).toBe(3);
  expect(logged()).toMatch(/trial: ended by SIGTERM after 3 rounds, status 3\n$/);
});

test('an idle watch says once a day that it is there', async () => {
  vi.useFakeTimers({ toFake: ['Date'] });
  onTestFinished(() => void vi.useRealTimers());
  const { folder, result, logged, end } = watching(['drop/below']);
  expect(existsSync(join(folder, 'drop', 'below'))).toBe(true);
  const beginning = 'drop/below: made, since there was no such folder\ntrial: watching drop/below; Ctrl+C ends it\n';
  const life = 'trial: still watching; nothing came\n';
  for (const [hours, said] of [
    [23, beginning],
    [2, beginning + life],
    [23, beginning + life],
    [2, beginning + life + life],
  ] as const) {
    vi.setSystemTime(Date.now() + hours * 3_600_000);
    await delay(100);
    expect(logged()).toBe(said);
  }
  end();
  expect(await result).toBe(0);
});

test('a folder elsewhere that is not there, and a file, are no folders to watch', async () => {
  await expect(watching(['../elsewhere-without-folder']).result).rejects.toMatchObject({ code: 'file-not-found' });
  await expect(watching(['file'], { file: '' }).result).rejects.toMatchObject({ code: 'bad-usage' });
});

test('what came is told to a step as far as a command line of Windows holds it', () => {
  const paths = (count: number, length: number) => Array.from({ length: count }, () => 'p'.repeat(length));
  expect([paths(1, 19_990), paths(200, 90), paths(1500, 3)].map(fitsCommandLine)).toEqual([true, true, true]);
  expect([paths(1, 19_991), paths(201, 90), paths(500, 60)].map(fitsCommandLine)).toEqual([false, false, false]);
});
