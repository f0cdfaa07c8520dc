import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { checks } from '../../src/checks/checks.ts';
import { readPolicy } from '../../src/checks/policy.ts';
import { dryholdProgram } from '../../src/cli/program.ts';
import { readRun } from '../../src/cli/run/declared-run.ts';
import { type ReferenceKey, references } from '../../src/references.ts';
import { readSourceMap } from '../../src/sources/parse-source-map.ts';

const root = new URL('../../', import.meta.url);
const text = (path: string) => readFileSync(new URL(path, root), 'utf8');
const files = (folder: string) => readdirSync(new URL(folder, root)).map((name) => `${folder}${name}`);
const policies = files('pipelines/policies/');
const maps = files('pipelines/maps/');
const runs = files('pipelines/runs/');
const schedules = files('pipelines/schedules/');
const validator = (schema: string) => new Ajv2020({ strict: false }).compile(JSON.parse(text(schema)) as object);

describe.each(policies)('%s', (path) => {
  const policy = readPolicy(fileURLToPath(new URL(path, root)));

  test('is valid by its JSON Schema, which it names', () => {
    const json = JSON.parse(text(path)) as { $schema: string };
    expect(new URL(json.$schema, new URL(path, root)).href).toBe(new URL('policy.schema.json', root).href);
    const validate = validator('policy.schema.json');
    expect([validate(json), validate.errors]).toEqual([true, null]);
  });

  test('is named as its file is', () => {
    expect(path).toBe(`pipelines/policies/${policy.id}.json`);
  });

  test('cites no work as the source of a limit that is only from memory', () => {
    for (const limits of Object.values(policy.limits))
      for (const { source } of Object.values(limits))
        expect(source === 'common-practice' || references[source as ReferenceKey].basis === 'source').toBe(true);
    const isFromMemory = Object.values(policy.limits).some((limits) =>
      Object.values(limits).some(({ source }) => source === 'common-practice'),
    );
    expect(policy.title.includes('from memory')).toBe(isFromMemory);
  });

  test('sets a limit that several checks share for all of them, and to the same', () => {
    // The length of the rise test has two names: how long it must be, and when its limit counts.
    const shared = [['target_pa'], ['limit_pa'], ['kind'], ['after_s', 'asked_s']];
    // The pressure test has a target and a length of its own.
    const ofVacuum = checks.filter(({ group }) => group !== 'pressure-test');
    for (const names of shared) {
      const values = ofVacuum.flatMap((check) =>
        names.filter((name) => name in check.limits).map((name) => policy.limits[check.id]?.[name]?.value),
      );
      expect(values.length).toBeGreaterThan(1);
      expect(new Set(values).size).toBe(1);
    }
  });
});

describe.each(maps)('%s', (path) => {
  test('is valid by its JSON Schema, which it names, and by what reads it', () => {
    const json = JSON.parse(text(path)) as { $schema: string; name: string };
    expect(new URL(json.$schema, new URL(path, root)).href).toBe(new URL('source-map.schema.json', root).href);
    const validate = validator('source-map.schema.json');
    expect([validate(json), validate.errors]).toEqual([true, null]);
    const map = readSourceMap(fileURLToPath(new URL(path, root)));
    expect(path).toBe(`pipelines/maps/${map.name}.json`);
  });
});

describe.each(runs)('%s', (path) => {
  test('is valid by its JSON Schema, which it names, and by what reads it', () => {
    const json = JSON.parse(text(path)) as { $schema: string };
    expect(new URL(json.$schema, new URL(path, root)).href).toBe(new URL('run.schema.json', root).href);
    const validate = validator('run.schema.json');
    expect([validate(json), validate.errors]).toEqual([true, null]);
    const run = readRun(fileURLToPath(new URL(path, root)), dryholdProgram(), {});
    expect(path).toBe(`pipelines/runs/${run.name}.json`);
  });

  test('raises the alarm once for each job, whichever run judges it', () => {
    const { steps } = JSON.parse(text(path)) as { steps: { do: string }[] };
    expect(steps.filter((step) => step.do === 'judge')).toEqual([{ do: 'judge', 'fail-on': 'fail', new: true }]);
  });
});

test('the run that the page of the folder shows is valid', () => {
  const [, shown = ''] = /```json\n(.*?)```/s.exec(text('pipelines/README.md')) ?? [];
  const validate = validator('run.schema.json');
  expect([validate(JSON.parse(shown)), validate.errors]).toEqual([true, null]);
});

test('schedules start runs that there are, and every run once in each kind', () => {
  const started = (of: readonly string[]) =>
    of.flatMap((path) =>
      [...text(path).matchAll(/^(?!#).*dryhold run \/srv\/dryhold\/(\S+)/gm)].map(
        ([, name]) => `pipelines/runs/${name}`,
      ),
    );
  const units = schedules.filter((path) => /\.(service|timer)$/.test(path));
  expect(started(units).sort()).toEqual(runs.toSorted());
  expect(started(schedules.filter((path) => !units.includes(path))).sort()).toEqual(runs.toSorted());
  for (const timer of units.filter((path) => path.endsWith('.timer')))
    expect(units).toContain(timer.replace(/timer$/, 'service'));
});

test('the page of the folder names every file, and no other', () => {
  const named = [
    ...text('pipelines/README.md').matchAll(/`((?:maps|policies|runs)\/[^`]+\.json|schedules\/[^`]+)`/g),
  ].map(([, name]) => name);
  expect([...new Set(named)].map((name) => `pipelines/${name}`).sort()).toEqual(
    [...policies, ...maps, ...runs, ...schedules].sort(),
  );
});

test('the schemas refuse what is wrong', () => {
  const policy = validator('policy.schema.json');
  const whole = { id: 'trial', title: 'Trial', version: 1, limits: {} };
  const limits = (check: string, name: string, value: unknown, source = 'common-practice') => ({
    ...whole,
    limits: { [check]: { [name]: { value, source } } },
  });
  expect(policy(limits('rise-over-limit', 'kind', 'rise'))).toBe(true);
  expect(policy(limits('rise-over-limit', 'kind', 'height'))).toBe(false);
  expect(policy(limits('rise-over-limit', 'limit_micron', 300))).toBe(false);
  expect(policy(limits('rise-overlimit', 'limit_pa', 40))).toBe(false);
  expect(policy(limits('rise-over-limit', 'limit_pa', -40))).toBe(false);
  expect(policy(limits('rise-over-limit', 'limit_pa', 40, 'hearsay'))).toBe(false);
  const map = validator('source-map.schema.json');
  const rows = (column: unknown) => ({ name: 'm', rows: [{ table: 'readings', columns: { elapsed_s: column } }] });
  expect(map(rows({ column: 2, time: 'clock' }))).toBe(true);
  expect(map(rows({ column: 0 }))).toBe(false);
  expect(map(rows({ colunm: 2 }))).toBe(false);
  expect(map({ name: 'm', rows: [] })).toBe(false);
  const run = validator('run.schema.json');
  const steps = (...all: unknown[]) => ({ name: 'r', title: 'Trial', steps: all });
  expect(run(steps({ do: 'judge', 'fail-on': 'fail', or: 'go-on' }))).toBe(true);
  expect(run(steps({ do: 'judge', 'fail-on': 'good' }))).toBe(false);
  expect(run(steps({ do: 'judge', failOn: 'fail' }))).toBe(false);
  expect(run(steps({ do: 'query', sql: 'select 1' }))).toBe(false);
  expect(run(steps({ do: 'ingest', path: ['drop'], watch: true }))).toBe(false);
  expect(run(steps({ do: 'ingest' }))).toBe(false);
  expect(run(steps({ do: 'due', within: 0 }))).toBe(false);
  expect(run(steps({ do: 'due', csv: true, into: 'due.csv' }))).toBe(true);
  expect(run(steps({ do: 'report', into: 'report.txt' }))).toBe(false);
  expect(run(steps())).toBe(false);
});
