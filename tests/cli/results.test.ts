import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { tableFromIPC } from 'apache-arrow';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { columnsOf } from '../../src/records/table.ts';
import { outputTables } from '../../src/records/tables.ts';
import { codedOutputs } from './coded-outputs.ts';
import { bash, command, dryhold, samples, temporaryFolder } from './dryhold-process.ts';

// Every run is a process of its own, and machines may be busy.
vi.setConfig({ testTimeout: 120_000 });

const folder = temporaryFolder();
const at = (...parts: string[]) => join(folder.path, ...parts);
const run = (...args: string[]) => dryhold(args, { cwd: folder.path });

const made: (number | null)[] = [];

beforeAll(() => {
  made.push(run('simulate', '--jobs', '30', '--seed', '4', '--out', 'bundle').status);
  // A review that names its writer.
  mkdirSync(at('more'));
  writeFileSync(
    at('more', 'reviews.csv'),
    'job_id,check_id,verdict,reviewed_by\njob-000001,hold-short,excused,Reviewer Nameson\n',
  );
  made.push(run('ingest', 'bundle', 'more').status);
  made.push(run('ingest', join(samples, 'bundle-csv')).status);
  made.push(run('judge').status);
}, 60_000);
afterAll(() => folder.remove());

test('a store is made: 1 for the wrong row of the sample', () => {
  expect(made).toEqual([0, 0, 1, 0]);
});

const people = () =>
  readFileSync(at('bundle', 'people.csv'), 'utf8')
    .trim()
    .split('\n')
    .slice(1)
    .flatMap((line) => line.split(',').slice(0, 2));

describe('export', () => {
  test('is sorted by the key, and the same bytes to standard output, to a file, and again', () => {
    for (const name of ['facts', 'findings', 'jobs', 'callbacks']) {
      const first = run('export', name);
      expect([name, first.status, first.stderr]).toEqual([name, 0, '']);
      const file = run('export', name, '--out', 'out.csv');
      expect([file.status, file.stdout]).toEqual([0, '']);
      expect(readFileSync(at('out.csv'), 'utf8')).toBe(first.stdout);
    }
    const lines = run('export', 'jobs').stdout.trim().split('\n').slice(1);
    expect(lines.length).toBe(33);
    expect(lines).toEqual(lines.toSorted());
  });

  test.each(['parquet', 'arrow'])('to %s reads back: taken into another store it exports the same text', (format) => {
    const bundle = `as-${format}`;
    mkdirSync(at(bundle));
    const names = ['people', 'jobs', 'readings'];
    for (const name of names)
      expect(
        run('export', name, '--format', format, '--out', join(bundle, `${name}.${format}`), '--quiet').stderr,
      ).toBe('');
    expect(run('ingest', bundle, '--store', `store-${format}`).status).toBe(0);
    for (const name of names)
      expect(run('export', name, '--store', `store-${format}`).stdout).toBe(run('export', name).stdout);
  });

  test('to arrow holds the rows and columns of the table', () => {
    expect(run('export', 'findings', '--format', 'arrow', '--out', 'findings.arrow').status).toBe(0);
    const table = tableFromIPC(readFileSync(at('findings.arrow')));
    const findings = run('export', 'findings', '--format', 'ndjson')
      .stdout.trim()
      .split('\n')
      .map((line) => JSON.parse(line) as Record<string, unknown>);
    expect(table.numRows).toBe(findings.length);
    const columns = columnsOf(outputTables.find(({ name }) => name === 'findings') as never).map(({ name }) => name);
    expect(table.schema.fields.map(({ name }) => name)).toEqual(columns);
    for (const name of ['job_id', 'check_id', 'outcome']) {
      const column = [...(table.getChild(name) ?? [])];
      expect(column).toEqual(findings.map((row) => row[name]));
    }
  });

  test('with --json tells where it wrote', () => {
    expect(JSON.parse(run('export', 'jobs', '--out', 'jobs.csv', '--json').stdout)).toEqual({
      table: 'jobs',
      file: 'jobs.csv',
    });
  });
});

describe('codes instead of names', () => {
  test('leave no name and no technician id in any export, report or job', () => {
    const names = [...people(), 'Pip Lathe', 'pip-lathe', 'Odd Marble', 'odd-marble', 'Reviewer Nameson'];
    expect(names.length).toBeGreaterThan(10);
    const outputs = codedOutputs(run, at);
    for (const [what, text] of outputs) {
      // A page's hashes of its own styles and scripts may spell anything.
      const words = text.replaceAll(/sha256-[\w+/]+=*/g, '');
      const found = names.filter((name) => words.includes(name));
      expect([what, words === '', found]).toEqual([what, false, []]);
    }
    // The names are there without --codes, so that the test can fail.
    expect(run('export', 'people').stdout).toContain(names[1]);
    expect(run('show', 'W-101').stdout).toContain('Pip Lathe');
  });

  test('a person has the same code in every output', () => {
    const jobs = run('export', 'jobs', '--codes', '--format', 'ndjson')
      .stdout.trim()
      .split('\n')
      .map((line) => JSON.parse(line) as { job_id: string; technician_id: string });
    const code = jobs.find(({ job_id }) => job_id === 'W-101')?.technician_id ?? '';
    expect(code).toMatch(/^P\d{3}$/);
    expect(run('show', 'W-101', '--codes').stdout).toContain(code);
  });

  test('what cannot be coded is refused with them', () => {
    for (const args of [
      ['export', 'rejects', '--codes'],
      ['query', 'select * from people', '--codes'],
    ]) {
      const { status, stdout, stderr } = run(...args);
      expect([status, stdout]).toEqual([2, '']);
      expect(stderr).toMatch(/^dryhold: .*names.*\n$/);
    }
  });
});

describe('show', () => {
  test.each([
    ['clean', 'W-101', /^pass {11}Did the pressure of the isolated system/m],
    ['failed', 'W-103', /^FAIL {11}Did the pressure of the isolated system/m],
    ['undercharged', 'W-102', /^FAIL {11}Did the weighed-in charge/m],
  ])('a %s job', (_, job, line) => {
    const { status, stdout, stderr } = run('show', job);
    expect([status, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(line);
    expect(stdout).toContain('they do not say that a system is safe');
    for (const each of stdout.split('\n')) expect(each.length).toBeLessThanOrEqual(100);
  });

  test('what happened comes first, then findings worst first, then what could not be judged, then what passed', () => {
    const { stdout } = run('show', 'W-103');
    const words = [...stdout.matchAll(/^(FAIL|suspect|missing|not evaluated|pass) {2}/gm)].map(([, word]) => word);
    const order = ['FAIL', 'suspect', 'missing', 'not evaluated', 'pass'];
    expect(words.length).toBeGreaterThan(3);
    expect(words).toEqual(words.toSorted((a = '', b = '') => order.indexOf(a) - order.indexOf(b)));
    const story = stdout.slice(0, stdout.indexOf('FAIL'));
    expect(story.replaceAll('\n', ' ')).toMatch(
      /pull down to .* valved off at .* watched for .* The pressure rose by /,
    );
    // Passes take a line each, and no text of theirs.
    expect(stdout).toMatch(/^pass {11}[^\n]*\?\n(pass {11}|\s+\()/m);
  });

  test('no line breaks between a figure and its unit', () => {
    for (const job of ['W-101', 'W-102', 'W-103', 'job-000002', 'job-000005'])
      expect(run('show', job).stdout).not.toMatch(/\d\n\s*(s|min|h|µm|oz|lb|%|psig?|bar|K)\b|bar\ngauge/);
  });

  test('the pressure test comes first, then the vacuum, then both together; its trace in a line', () => {
    const sql = `select job_id from facts where pressure_drop_pa is not null and ruled_out_by is not null
      and tests_disagree = false order by job_id limit 1`;
    const [{ job_id: job }] = JSON.parse(run('query', sql, '--json').stdout) as [{ job_id: string }];
    const { stdout } = run('show', job);
    const story = stdout.replaceAll('\n', ' ');
    expect(story).toMatch(
      /The pressure test went up to [\d.]+ psig .* the drop that temperature does not explain .* pull down to .* Together the pressure test and the rise test /,
    );
    expect(stdout).toMatch(
      /^pressure test over .*, highest [\d.]+ psig\n( {2}hold .*\n)* {2}judged hold from .* for (.*\n)+judged hold after settling, temperature taken out; the bars span [\d.]+ psi\n[▁▂▃▄▅▆▇█]+\n/m,
    );
    expect(stdout.indexOf('pressure test over')).toBeLessThan(stdout.indexOf('vacuum over'));
    expect(run('show', job, '--units', 'si').stdout).toMatch(/highest [\d.]+ bar gauge/);
  });

  test('in the units asked for', () => {
    expect(run('show', 'W-101').stdout).toContain('500 µm');
    const si = run('show', 'W-101', '--units', 'si').stdout;
    expect(si).toContain('66.7 Pa');
    expect(si).not.toMatch(/µm| oz| lb/);
  });

  test('as a page, and as JSON', () => {
    expect(run('show', 'W-103', '--html', 'job.html').stdout).toBe('job.html\n');
    expect(readFileSync(at('job.html'), 'utf8')).toMatch(/What was found on job W-103[^]*\(as-recorded\)/);
    const job = JSON.parse(run('show', 'W-103', '--json').stdout) as Record<string, unknown>;
    expect(job).toMatchObject({ jobId: 'W-103', policyId: 'as-recorded', technician: 'Pip Lathe' });
  });
});

describe('query', () => {
  test('counts what is in the store, readings too', () => {
    const { status, stdout } = run('query', `select count(*)::int as n from readings where job_id = 'W-101'`, '--json');
    expect([status, JSON.parse(stdout)]).toEqual([0, [{ n: 79 }]]);
    expect(run('query', `select 'a' as x, 1 as y`).stdout).toBe('x  y\na  1\n');
  });

  test.each([
    ['delete from jobs'],
    ['drop table jobs'],
    ['insert into people values (1)'],
    ['select 1; select 2'],
    [`copy jobs to 'stolen.csv'`],
    [`attach 'other.duckdb'`],
    [`select * from read_csv('bundle/jobs.csv')`],
    [`select * from read_text('bundle/../bundle/people.csv')`],
    [`select * from 'bundle/jobs.csv'`],
    [`select * from glob('*')`],
    [`set enable_external_access = true`],
    ['selec 1'],
    ['select * from no_such_table'],
    [''],
  ])('refuses %s', (sql) => {
    const { status, stdout, stderr } = run('query', sql);
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(/^dryhold: query refused: [^\n]+\n$/);
  });

  test('and none of these changed or wrote anything', () => {
    expect(JSON.parse(run('query', 'select count(*)::int as n from jobs', '--json').stdout)).toEqual([{ n: 33 }]);
    expect(existsSync(at('stolen.csv'))).toBe(false);
    expect(existsSync(at('other.duckdb'))).toBe(false);
  });
});

describe('beside the results', () => {
  test.each([
    'export readings',
    'export jobs --format ndjson',
    'query "select * from findings" --json',
    'show W-101 --json',
    '--help',
  ])('whoever stops reading breaks nothing: %s', (line) => {
    const { status, stdout, stderr } = bash(`dryhold ${line} | head -1`, folder.path);
    expect([status, stderr]).toEqual([0, '']);
    expect(stdout.split('\n')).toHaveLength(2);
  });

  const hasScript = spawnSync('script', ['--version']).status === 0;
  test.skipIf(!hasScript)('progress shows on a terminal only, and not with --quiet', () => {
    const onTerminal = (args: string) =>
      spawnSync('script', ['-qec', `'${process.execPath}' '${command}' ${args}`, at('typescript')], {
        cwd: folder.path,
        encoding: 'utf8',
      }).stdout;
    expect(onTerminal('ingest bundle --store terminal')).toContain('reading █');
    expect(onTerminal('ingest bundle --store quiet --quiet')).not.toContain('█');
    const piped = run('ingest', 'bundle', '--store', 'piped');
    expect([piped.status, piped.stderr]).toEqual([0, '']);
  });

  test('--fail-on gives 1 where there is such a finding, and 0 where there is none', () => {
    expect(run('judge', '--fail-on', 'fail').status).toBe(1);
    expect(run('judge', '--fail-on', 'suspect').status).toBe(1);
    writeFileSync(at('jobs.csv'), 'job_id,started_at\nA,2026-01-05T09:00:00Z\n');
    run('ingest', 'jobs.csv', '--store', 'lone');
    const lone = run('judge', '--fail-on', 'suspect', '--store', 'lone', '--json');
    expect(lone.status).toBe(0);
    expect(JSON.parse(lone.stdout)).toMatchObject({ judged: 1, policyId: 'as-recorded', outcomes: { fail: 0 } });
  });

  test('ingest, simulate and report speak JSON, too', () => {
    const again = run('ingest', 'bundle', '--json');
    expect(again.status).toBe(0);
    expect((JSON.parse(again.stdout) as { alreadyIn: string[] }).alreadyIn).toContain(join('bundle', 'jobs.csv'));
    expect(JSON.parse(run('simulate', '--jobs', '2', '--out', 'two', '--json').stdout)).toMatchObject({
      jobs: 2,
      folder: 'two',
    });
    expect(JSON.parse(run('report', '--json', '--out', 'page').stdout)).toMatchObject({
      page: join('page', 'index.html'),
      pages: {
        serviceManager: join('page', 'service-manager.html'),
        trainer: join('page', 'trainer.html'),
        owner: join('page', 'owner.html'),
      },
      jobs: 33,
    });
    for (const name of ['service-manager', 'trainer', 'owner'])
      expect(readFileSync(at('page', `${name}.html`), 'utf8')).toMatch(/^<!doctype html>/);
  });
});
