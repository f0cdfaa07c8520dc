import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { DuckDBInstance } from '@duckdb/node-api';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { dryhold, oldNode, samples, temporaryFolder } from './dryhold-process.ts';

// Every run is a process of its own, and machines may be busy.
vi.setConfig({ testTimeout: 120_000 });

const folder = temporaryFolder();
const at = (...parts: string[]) => join(folder.path, ...parts);
const run = (...args: string[]) => dryhold(args, { cwd: folder.path });

/** One line on standard error, nothing on standard output, no stack trace. */
function expectRefusal(args: string[], status: number, says: RegExp | string): void {
  const result = run(...args);
  expect(result.stdout).toBe('');
  expect(result.stderr).toMatch(/^[^\n]+\n$/);
  expect(result.stderr).not.toMatch(/\n {4}at |a bug/);
  expect(result.stderr).toMatch(says);
  expect(result.status).toBe(status);
}

const map = (change: (columns: Record<string, unknown>) => void): string => {
  const columns: Record<string, unknown> = {
    job_id: { file_name: true },
    elapsed_s: { column: 't' },
    vacuum_pa: { column: 'p', unit: 'mbar' },
  };
  change(columns);
  return JSON.stringify({ name: 'm', rows: [{ table: 'readings', columns }] });
};

beforeAll(() => {
  for (const name of ['empty', 'wrong', 'text', 'binary', 'junk', 'nothing']) mkdirSync(at(name));
  writeFileSync(at('empty', 'jobs.csv'), '');
  writeFileSync(at('wrong', 'jobs.csv'), 'a,b\n1,2\n');
  writeFileSync(
    at('text', 'jobs.csv'),
    'job_id,started_at,altitude_m\nA,2026-01-05T09:00:00Z,high\nB,2026-01-05T09:00:00Z,12\n',
  );
  writeFileSync(at('binary', 'jobs.csv'), Buffer.from([0, 1, 2, 0, 255]));
  writeFileSync(at('junk', 'catalogue.duckdb'), 'junk');
  writeFileSync(at('log.csv'), 't,p\n0,1\n');
  writeFileSync(
    at('unit.json'),
    map((columns) => (columns.vacuum_pa = { column: 'p', unit: 'furlong' })),
  );
  writeFileSync(
    at('kind.json'),
    map((columns) => (columns.vacuum_pa = { column: 'p', unit: 'kg' })),
  );
  writeFileSync(
    at('column.json'),
    map((columns) => (columns.vacuum_pa = { column: 'q' })),
  );
  writeFileSync(
    at('ours.json'),
    map((columns) => (columns.vacum_pa = { column: 'p' })),
  );
  writeFileSync(at('broken.json'), '{');
  writeFileSync(at('policy.json'), '{}');
  run('ingest', join(samples, 'bundle-csv'));
}, 30_000);
afterAll(() => folder.remove());

describe('wrong usage is told in one line with where to read on, status 2', () => {
  test.each([
    [['bogus'], "dryhold: unknown command 'bogus'; see: dryhold --help"],
    [['judge', '--bogus'], "dryhold: unknown option '--bogus'; see: dryhold judge --help"],
    [['show'], "dryhold: missing required argument 'job'; see: dryhold show --help"],
    [['ingest'], "missing required argument 'path'"],
    [['judge', '--new'], 'dryhold: --new narrows --fail-on; give that as well'],
    [['judge', '--wait', '5'], 'cannot read "5": no unit; wanted: a duration'],
    [['run', 'broken.json'], 'broken.json: declared run is wrong at the whole file: '],
    [['judge', '--fail-on', 'x'], 'Allowed choices are suspect, fail'],
    [['export', 'jobs', '--format', 'xml'], 'Allowed choices are csv, ndjson, parquet, arrow'],
    [['report', '--units', 'furlong'], 'Allowed choices are ip, si'],
    [['simulate', '--jobs', '0', '--out', 'x'], 'a whole number from 1 is wanted, received "0"'],
    [['simulate', '--out', 'x'], "required option '--jobs <n>' not specified"],
    [['export', 'jobs', 'people'], 'too many arguments'],
    [['export', 'nosuch'], 'no table "nosuch"; known: facts, findings'],
    [['show', 'nosuch'], 'no job "nosuch" in ./dryhold-store'],
  ])('%j', (args, says) => expectRefusal(args, 2, says));

  test('no command at all prints the help, on standard error', () => {
    const { status, stdout, stderr } = run();
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toContain('usage: dryhold');
  });
});

describe('what cannot be read or written, status 3', () => {
  test.each([
    [['ingest', 'nosuch.csv'], 'dryhold: nosuch.csv: no such file or folder'],
    [['ingest', 'no-*.csv'], 'no such file or folder'],
    [['ingest', 'nothing'], 'nothing: nothing to read here; expected files or folders named after tables'],
    [['ingest', 'log.csv'], 'log.csv: nothing to read here'],
    [['ingest', 'empty'], 'empty/jobs.csv: refused: the file is empty'],
    [['ingest', 'wrong'], 'wrong/jobs.csv: refused: table jobs needs column job_id, started_at; the file has a, b'],
    [['ingest', 'binary'], 'binary/jobs.csv: refused: no text file'],
    [['ingest', 'log.csv', '--map', 'nosuch.json'], 'nosuch.json: no such file'],
    [
      ['ingest', 'log.csv', '--map', 'unit.json'],
      'unit.json: source map is wrong at rows.0.columns.vacuum_pa: unknown unit "furlong"',
    ],
    [['ingest', 'log.csv', '--map', 'kind.json'], '"kg" does not measure what the column holds'],
    [['ingest', 'log.csv', '--map', 'column.json'], 'has no column "q"; it has t, p'],
    [['ingest', 'log.csv', '--map', 'ours.json'], 'table readings has no column "vacum_pa"'],
    [['ingest', 'log.csv', '--map', 'broken.json'], 'broken.json: source map is wrong at the whole file'],
    [['judge', '--policy', 'nosuch.json'], 'nosuch.json: no such file'],
    [['judge', '--policy', 'policy.json'], 'policy.json: policy is wrong at id'],
    [['report', '--store', 'nowhere'], 'nowhere: no store here; make one with "dryhold ingest"'],
    [['show', 'W-101', '--store', 'nowhere'], 'no store here'],
    [['judge', '--store', 'nowhere'], 'no store here'],
    [['judge', '--merge', 'text', '--store', 'nowhere'], 'no store here'],
    [['report', '--store', 'junk'], 'junk: not a readable store'],
    [['export', 'jobs', '--out', 'no/such/place.csv'], 'no/such/place.csv: cannot be used: no such folder'],
    [['export', 'jobs', '--format', 'arrow', '--out', 'no/such/place'], 'no/such/place: cannot be used'],
    [['export', 'jobs', '--out', 'nothing'], 'nothing: cannot be used: it is a folder'],
    [['simulate', '--jobs', '1', '--out', 'log.csv'], 'log.csv: cannot be used: a file of that name is in the way'],
  ])('%j', (args, says) => expectRefusal(args, 3, says));

  test('a map over two lines of complaint still gives one', () => {
    writeFileSync(at('lines.json'), 'no\njson\n');
    const { status, stderr } = run('ingest', 'log.csv', '--map', 'lines.json');
    expect(status).toBe(3);
    expect(stderr).toContain('lines.json: source map is wrong');
  });

  test('a store of a newer version is not touched', async () => {
    run('ingest', join(samples, 'bundle-csv'), '--store', 'newer');
    const instance = await DuckDBInstance.create(at('newer', 'catalogue.duckdb'));
    const connection = await instance.connect();
    await connection.run('UPDATE store_version SET version = 999');
    connection.closeSync();
    instance.closeSync();
    const before = readFileSync(at('newer', 'catalogue.duckdb'));
    for (const args of [['report'], ['judge'], ['ingest', 'text']])
      expectRefusal(
        [...args, '--store', 'newer'],
        3,
        /newer: store has version 999, this dryhold knows up to \d+; use a newer dryhold/,
      );
    expect(readFileSync(at('newer', 'catalogue.duckdb')).equals(before)).toBe(true);
  });
});

test('before anything is judged, report, show and findings say so, status 2', () => {
  for (const args of [['report'], ['show', 'W-101'], ['export', 'findings']])
    expectRefusal(args, 2, 'nothing is judged yet; run "dryhold judge" first');
});

test('good rows beside refused ones are kept, status 1, and the refused are told of on standard error', () => {
  const { status, stdout, stderr } = run('ingest', 'text', '--store', 'mixed');
  expect([status, stdout]).toEqual([1, 'text/jobs.csv: 1 row kept, 1 refused\n']);
  expect(stderr).toBe('1 row refused; to see which, and why: dryhold rejects --store mixed\n');
  expect(run('export', 'rejects', '--store', 'mixed').stdout).toContain('"altitude_m: not a number: ""high"""');
});

describe('help', () => {
  test.each(['demo', 'ingest', 'judge', 'report', 'show', 'export', 'query', 'simulate'])(
    'of %s has examples',
    (name) => {
      const { status, stdout, stderr } = run(name, '--help');
      expect([status, stderr]).toEqual([0, '']);
      expect(stdout).toMatch(new RegExp(`^usage: dryhold ${name} `));
      expect(stdout).toMatch(new RegExp(`\nexamples:\n  dryhold ${name}`));
    },
  );

  test('may be asked for as a command', () => {
    expect(run('help', 'show').stdout).toBe(run('show', '--help').stdout);
  });

  test('--version is the package’s', () => {
    const { version } = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8')) as {
      version: string;
    };
    expect(run('--version').stdout).toBe(`${version}\n`);
  });
});

test.skipIf(oldNode === undefined)('an old Node hands on arguments, both outputs and the status', () => {
  const options = { cwd: folder.path, node: oldNode ?? '' };
  const refused = dryhold(['show', 'no such job'], options);
  expect([refused.status, refused.stdout]).toEqual([2, '']);
  expect(refused.stderr).toContain('no job "no such job"');
  expect(dryhold(['query', `select 'a b' as x`], options).stdout).toBe('x\na b\n');
});
