import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import type { Check } from '../../src/checks/check.ts';
import { checkNamed } from '../../src/checks/checks.ts';
import { type Policy, readPolicy, resolveLimits } from '../../src/checks/policy.ts';

const folder = mkdtempSync(join(tmpdir(), 'policy-'));
afterAll(() => rmSync(folder, { recursive: true }));

const written = (content: string) => {
  const path = join(folder, 'policy.json');
  writeFileSync(path, content);
  return path;
};
const policy = (limits: object) =>
  JSON.stringify({ id: 'trial', title: 'Trial', version: 1, limits: { 'hold-short': limits } });

describe('readPolicy', () => {
  test('reads what is right, and the record stays silent unless asked', () => {
    const read = readPolicy(written(policy({ hold_s: { value: 60, source: 'common-practice' } })));
    expect(read.limits['hold-short']?.hold_s).toEqual({ value: 60, source: 'common-practice', unless_recorded: false });
  });

  test.each([
    ['no JSON', '{', 'the whole file'],
    ['an unknown source', policy({ hold_s: { value: 60, source: 'hearsay' } }), 'limits.hold-short.hold_s.source'],
    ['an unknown limit', policy({ hold_h: { value: 1, source: 'common-practice' } }), 'limits.hold-short.hold_h'],
    ['a value out of range', policy({ hold_s: { value: -1, source: 'common-practice' } }), 'limits.hold-short.hold_s'],
    ['a word for a number', policy({ hold_s: { value: 'x', source: 'common-practice' } }), 'limits.hold-short.hold_s'],
    ['an unknown check', policy({}).replace('hold-short', 'hold-on'), 'limits.hold-on'],
    ['an id with blanks', policy({}).replace('"trial"', '"My Trial"'), 'id'],
  ])('refuses %s and names the place', (_, content, where) => {
    expect(() => readPolicy(written(content))).toThrow(
      expect.objectContaining({ code: 'policy-invalid', parameters: expect.objectContaining({ where }) }),
    );
  });

  test('refuses a file that is not there', () => {
    expect(() => readPolicy(join(folder, 'none.json'))).toThrow(expect.objectContaining({ code: 'file-not-found' }));
  });
});

describe('resolveLimits', () => {
  const check = checkNamed('hold-short') as Check;
  const set = (unless_recorded: boolean): Policy => ({
    id: 'trial',
    title: 'Trial',
    version: 1,
    limits: { 'hold-short': { hold_s: { value: 60, source: 'ufgs-refrigerant-piping', unless_recorded } } },
  });

  test.each([
    ['policy over record', set(false), { hold_target_s: 300 }, 60, 'ufgs-refrigerant-piping'],
    ['record first where the policy lets it', set(true), { hold_target_s: 300 }, 300, 'record'],
    ['policy where nothing is recorded', set(true), {}, 60, 'ufgs-refrigerant-piping'],
    ['a recorded 0 is a record', set(true), { hold_target_s: 0 }, 0, 'record'],
    ['default where the policy is silent', { ...set(true), limits: {} }, {}, 900, 'common-practice'],
  ] as const)('%s', (_, given, job, value, source) => {
    expect(resolveLimits(check, given, job).hold_s).toEqual({ value, source });
  });
});
