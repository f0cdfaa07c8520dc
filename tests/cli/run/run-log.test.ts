import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { RunLog } from '../../../src/cli/run/run-log.ts';
import { tempFolder } from '../../store/temp-store.ts';

test('a line holds nothing that a terminal obeys, and goes into the file of its day', () => {
  const folder = tempFolder();
  let day = '2026-11-30';
  let printed = '';
  const to = { write: (text: string) => (printed += text) };
  const log = new RunLog({ folder, log: 'logs/{month}.log', print: 'alarms', to, day: () => day });
  log.note('    a\u001b[2Jb\rc');
  expect(printed).toBe('');
  day = '2026-12-01';
  log.alarm('d\u2028e');
  const of = (month: string) => readFileSync(join(folder, 'logs', `${month}.log`), 'utf8');
  expect(of('2026-11')).toMatch(/^\d{4}-\d\d-\d\d \d\d:\d\d:\d\d {5}a\\u\{1b\}\[2Jb\\u\{d\}c\n$/);
  expect(of('2026-12')).toMatch(/ d\\u\{2028\}e\n$/);
  // What needs somebody is printed with what was said before it.
  expect(printed).toBe(of('2026-11') + of('2026-12'));
});

test('a log that cannot be written is an error at the beginning, and later noted, once the run is under way', () => {
  const folder = tempFolder();
  writeFileSync(join(folder, 'file'), '');
  const begin = (path: string) =>
    new RunLog({ folder, log: path, print: 'all', to: { write: () => true }, day: () => '2026-12-01' });
  expect(() => begin('file/run.log')).toThrow('cannot be used: a file of that name is in the way');
  const log = begin('run.log');
  log.note('first');
  expect(log.isBroken).toBe(false);
  rmSync(join(folder, 'run.log'));
  mkdirSync(join(folder, 'run.log'));
  log.note('second');
  expect(log.isBroken).toBe(true);
});
