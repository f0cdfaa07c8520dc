import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { checks } from '../../src/checks/checks.ts';
import { readPolicy, resolveLimits } from '../../src/checks/policy.ts';
import { type ReferenceKey, references } from '../../src/references.ts';
import { readSourceMap } from '../../src/sources/source-map.ts';
import { MICRON_PA } from '../facts/synthetic-log.ts';

const root = new URL('../../', import.meta.url);
const text = (path: string) => readFileSync(new URL(path, root), 'utf8');
const files = (folder: string) => readdirSync(new URL(folder, root)).map((name) => `${folder}${name}`);
const policies = files('pipelines/policies/');
const maps = files('pipelines/maps/');
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

test('the page of the folder names every file, and no other', () => {
  const named = [...text('pipelines/README.md').matchAll(/`((?:maps|policies)\/[^`]+\.json)`/g)].map(
    ([, name]) => name,
  );
  expect([...new Set(named)].map((name) => `pipelines/${name}`).sort()).toEqual([...policies, ...maps].sort());
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
});

describe('the same job by two policies', () => {
  // 300 → 740 µm by way of 450 µm: standards differ in the limit, its kind and the time.
  const facts = (fromMicrons: number, toMicrons: number, isolationS: number) => ({
    vacuum_readings: 900,
    isolation_start_s: 0,
    isolation_end_s: isolationS,
    isolation_pa: fromMicrons * MICRON_PA,
    isolation_end_pa: toMicrons * MICRON_PA,
    rise_pa: (toMicrons - fromMicrons) * MICRON_PA,
    deepest_pa: fromMicrons * MICRON_PA,
  });
  const outcome = (id: string, checkId: string, given: ReturnType<typeof facts>) => {
    const check = checks.find((one) => one.id === checkId);
    if (check === undefined) throw new Error(`no check ${checkId}`);
    const policy = readPolicy(fileURLToPath(new URL(`pipelines/policies/${id}.json`, root)));
    // What the job records does not matter to a policy that names its limits.
    const job = { rise_limit_pa: 1, rise_limit_kind: 'level' as const, vacuum_target_pa: 1 };
    return check.judge(given, resolveLimits(check, policy, job)).outcome;
  };
  const ufgs = 'ufgs-refrigerant-piping';
  const rise = 'rise-300-micron-in-5-min';

  test.each([
    [ufgs, 'rise-over-limit', facts(290, 499, 3600), 'pass'],
    [ufgs, 'rise-over-limit', facts(290, 501, 3600), 'fail'],
    [ufgs, 'rise-over-limit', facts(290, 400, 600), 'not-evaluated'],
    [ufgs, 'rise-over-limit', facts(290, 740, 600), 'fail'],
    [ufgs, 'target-not-reached', facts(299, 400, 3600), 'pass'],
    [ufgs, 'target-not-reached', facts(301, 400, 3600), 'fail'],
    [ufgs, 'no-rise-test', facts(290, 400, 3600), 'pass'],
    [ufgs, 'no-rise-test', facts(290, 400, 3500), 'fail'],
    [rise, 'rise-over-limit', facts(450, 740, 300), 'pass'],
    [rise, 'rise-over-limit', facts(450, 751, 300), 'fail'],
    [rise, 'rise-over-limit', facts(450, 740, 200), 'not-evaluated'],
    [rise, 'target-not-reached', facts(499, 740, 300), 'pass'],
  ] as const)('%s, %s: %o', (id, checkId, given, expected) => {
    expect(outcome(id, checkId, given)).toBe(expected);
  });
});
