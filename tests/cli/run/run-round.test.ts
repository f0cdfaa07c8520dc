import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
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
  const log = new RunLog({ folder, print: 'nothing', day: () => day });
  const { status } = await runRound(
    { ...run, stepsOn },
    { log, day, came: [a, b], stop: new AbortController().signal },
  );
  expect([status, told]).toEqual([3, [[a, b], [b]]]);
  const [ingest] = run.stepsOn(day, []);
  expect(ingest.args.filter((arg) => arg.startsWith('--only'))).toEqual([]);
});
