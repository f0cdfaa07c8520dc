import { mkdirSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { dryholdProgram } from '../../../src/cli/program.ts';
import { readRun } from '../../../src/cli/run/declared-run.ts';
import { stepCommands } from '../../../src/cli/run/run-schema.ts';
import { tempFolder, writeFiles } from '../../store/temp-store.ts';

const program = dryholdProgram();

function read(content: unknown, given = {}) {
  const text = typeof content === 'string' ? content : JSON.stringify(content);
  return readRun(join(writeFiles(tempFolder(), { 'run.json': text }), 'run.json'), program, given);
}

const run = (...steps: unknown[]) => ({ name: 'trial', title: 'Trial', steps });

test('a step is started with its options by name and its arguments after them', () => {
  const given = { units: 'si', wait: '10min' };
  const declared = read(
    {
      ...run(
        { do: 'ingest', path: ['-drop', 'a b'], map: ['m.json', '--n.json'], whole: true },
        { do: 'due', within: 30, csv: false, on: '{last-month-end}', units: 'ip', into: 'due/{week}.csv', or: 'go-on' },
        { do: 'report', out: '{today}', wait: '5s' },
      ),
      store: 'shop',
    },
    given,
  );
  const [ingest, due, report] = declared.stepsOn('2026-12-01');
  const common = ['--store=shop', '--wait=10min'];
  expect(ingest?.args).toEqual([
    'ingest',
    '--map=m.json',
    '--map=--n.json',
    '--whole',
    ...common,
    '--units=si',
    '--',
    '-drop',
    'a b',
  ]);
  expect(ingest?.typed).toBe('dryhold ingest -drop "a b" --map m.json --map --n.json --whole --store shop --units si');
  expect(due?.args).toEqual(['due', '--within=30', '--on=2026-11-30', ...common, '--units=ip']);
  expect([due?.into, due?.goOn, ingest?.goOn]).toEqual(['due/2026-W49.csv', true, false]);
  expect(report?.args).toEqual(['report', '--out=2026-12-01', '--store=shop', '--wait=5s', '--units=si']);
  expect(report?.makes).toEqual(['2026-12-01']);
});

test('files that came are told to a step that looks at nothing but what is watched, by whatever link', () => {
  const folder = tempFolder();
  for (const name of ['real/drop/sub', 'office', 'drop-2']) mkdirSync(join(folder, name), { recursive: true });
  symlinkSync(join(folder, 'real', 'drop'), join(folder, 'drop'), 'junction');
  symlinkSync(join(folder, 'office'), join(folder, 'real', 'out'), 'junction');
  const paths = [['drop'], ['real/drop/sub', 'drop/*.csv'], ['drop', 'office'], ['drop-2'], ['real/*']];
  const content = { ...run(...paths.map((path) => ({ do: 'ingest', path })), { do: 'judge' }), watch: ['drop'] };
  writeFiles(folder, { 'run.json': JSON.stringify(content) });
  const declared = readRun(join(folder, 'run.json'), program, {});
  const told = declared.stepsOn('2026-12-01', ['a.csv']).map(({ args }) => args.includes('--only=a.csv'));
  expect(told).toEqual([true, true, false, false, false, false]);
});

test.each([
  ['{"name": 1', 'the whole file'],
  [{}, 'at "name": is missing'],
  [run(), 'at "steps": '],
  [{ ...run({ do: 'judge' }), stepz: [] }, 'at the top: there is no "stepz" here; known: $schema, name, title, store'],
  [run({ do: 'query', sql: 'select 1' }), 'at step 1 (query): "do" is none of ingest, rejects, judge'],
  [
    run({ do: 'judge' }, { do: 'judge', polcy: 'x' }),
    'at step 2 (judge): there is no "polcy" here; known: do, policy, ',
  ],
  [run({ do: 'ingest' }), 'at step 1 (ingest), "path": is missing'],
  [run({ do: 'ingest', path: 'drop' }), 'at step 1 (ingest), "path": wants a list'],
  [run({ do: 'ingest', path: ['drop'], watch: true }), 'there is no "watch" here'],
  [run({ do: 'judge', 'fail-on': 'bad' }), 'at step 1 (judge), "fail-on": expected one of'],
  [run({ do: 'report', out: 'a\0b' }), 'at step 1 (report), "out": holds the character U+0000'],
  [{ ...run({ do: 'judge' }), store: '\0' }, 'at "store": holds the character U+0000'],
  [run({ do: 'due', on: 'monday' }), 'at step 1 (due): "on": a day such as 2026-06-30 is wanted, received "monday"'],
  [run({ do: 'judge', wait: 'long' }), 'at step 1 (judge): "wait": cannot read "long"'],
  [
    run({ do: 'report', out: '{weak}' }),
    'at step 1 (report), "out": no placeholder {weak}; known: {today}, {week}, {month}',
  ],
  [{ ...run({ do: 'judge' }), watch: ['{week}'] }, 'at "watch": the folders that are watched stay the same'],
  [
    { ...run({ do: 'judge' }), watch: ['drop'], log: 'drop/{month}.log' },
    'at "log": drop/{month}.log lies in the watched folder drop, and would start the run again and again; put it elsewhere',
  ],
  [{ ...run({ do: 'judge' }), watch: ['./'] }, 'at "store": ./dryhold-store lies in the watched folder ./, and'],
  [
    { ...run({ do: 'judge' }), watch: ['a', 'drop'], store: 'drop' },
    'at "store": drop lies in the watched folder drop',
  ],
  [
    { ...run({ do: 'judge' }, { do: 'report', out: 'x/../drop/{week}' }), watch: ['drop'] },
    'at step 2 (report), "out": x/../drop/{week} lies in',
  ],
  [
    { ...run({ do: 'show', job: 'J', html: 'drop/a.html' }), watch: ['drop'] },
    'at step 1 (show), "html": drop/a.html lies',
  ],
  [{ ...run({ do: 'report', store: '../s' }), watch: ['.'] }, 'at step 1 (report), "out": ./dryhold-report lies in'],
  [
    { ...run({ do: 'due', into: './a-2026.txt' }), log: 'a-2026.txt' },
    'at step 1 (due), "into": ./a-2026.txt is the log',
  ],
])('what is wrong is told by its place, before anything is done: %j', (content, problem) => {
  let told: unknown;
  try {
    read(content);
  } catch (error) {
    told = error;
  }
  expect(told).toMatchObject({ code: 'run-invalid', exitStatus: 2 });
  expect((told as Error).message).toContain(problem);
});

test.each([
  ['gone.json', 'file-not-found', 'no such file or folder'],
  ['', 'file-unreadable', 'cannot be read: it is a folder'],
  ['a'.repeat(300), 'file-unreadable', 'cannot be read: the name is too long'],
])('a file that cannot be read says why: %.9s', (name, code, problem) => {
  const path = join(tempFolder(), name);
  const expected = { code, message: expect.stringContaining(problem) as string };
  expect(() => readRun(path, program, {})).toThrow(expect.objectContaining(expected));
});

test('no command has an option or an argument that a step would take for a word of its own', () => {
  const names = stepCommands(program).flatMap((command) => [
    ...command.options.map((option) => option.name()),
    ...command.registeredArguments.map((argument) => argument.name()),
  ]);
  expect(names.length).toBeGreaterThan(100);
  for (const word of ['do', 'or', 'into']) expect(names).not.toContain(word);
  for (const command of stepCommands(program)) {
    const own = command.options.map((option) => option.name());
    for (const argument of command.registeredArguments) expect(own).not.toContain(argument.name());
  }
});
