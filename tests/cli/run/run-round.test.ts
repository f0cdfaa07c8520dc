import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test, vi } from 'vitest';
import { dryholdProgram } from '../../../src/cli/program.ts';
import { readRun } from '../../../src/cli/run/declared-run.ts';
import { RunLog } from '../../../src/cli/run/run-log.ts';
import { runRound } from '../../../src/cli/run/run-round.ts';
import { tempFolder, writeFiles } from '../../store/temp-store.ts';

test('what came and went again meanwhile is told to no step', async () => {
  const declared = {
    name: 'trial',
    title: 'Trial',
    watch: ['drop'],
    steps: [1, 2].map(() => ({ do: 'ingest', path: ['drop'], or: 'go-on' })),
  };
  const folder = writeFiles(tempFolder(), {
    'run.json': JSON.stringify(declared),
    file: '',
    'drop/a.csv': 'a',
    'drop/b.csv': 'b',
  });
  const run = readRun(join(folder, 'run.json'), dryholdProgram(), {});
  const [a, b] = ['a.csv', 'b.csv'].map((name) => join(folder, 'drop', name));
  const told: unknown[] = [];
  const day = '2026-12-01';
  const stepsOn = (of: string, came?: readonly string[]) => {
    if (came !== undefined) told.push(came);
    if (told.length === 1) rmSync(a);
    // A file is in the way of what it makes: no process is started.
    return run.stepsOn(of, came).map((step) => ({ ...step, makes: ['file/in/the/way'] }));
  };
  const log = new RunLog({ folder, print: 'all', to: { write: () => true }, day: () => day });
  const { status } = await runRound(
    { ...run, stepsOn },
    { log, day, came: [a, b], stop: new AbortController().signal },
  );
  expect([status, told]).toEqual([3, [[a, b], [b]]]);
  const [ingest] = run.stepsOn(day, []);
  expect(ingest.args.filter((arg) => arg.startsWith('--only'))).toEqual([]);
});

test('with --json why a step broke off is told beside the result', async () => {
  const steps = [{ do: 'report', out: 'file/report' }, { do: 'judge' }];
  const content = { name: 'trial', title: 'Trial', steps };
  const folder = writeFiles(tempFolder(), { 'run.json': JSON.stringify(content), file: '' });
  const printed = { stdout: '', stderr: '' };
  const spies = (['stdout', 'stderr'] as const).map((stream) =>
    vi.spyOn(process[stream], 'write').mockImplementation((text) => Boolean((printed[stream] += String(text)))),
  );
  await dryholdProgram()
    .parseAsync(['run', join(folder, 'run.json'), '--json'], { from: 'user' })
    .finally(() => spies.forEach((spy) => spy.mockRestore()));
  expect(JSON.parse(printed.stdout)).toEqual([
    { step: 1, do: 'report', status: 3, seconds: 0 },
    { step: 2, do: 'judge', status: null, seconds: null },
  ]);
  expect(printed.stderr).toMatch(
    /step 1 of 2: .*\n.* {4}.*cannot be used: a file of that name is in the way.*\n.*\(status 3\).*1 step after it not run\n.*look at step 1 \(report\)/,
  );
});
