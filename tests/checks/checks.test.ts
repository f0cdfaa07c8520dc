import { existsSync, readdirSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { outcomes } from '../../src/checks/check.ts';
import { checkNamed, checks } from '../../src/checks/checks.ts';
import { messageText } from '../../src/checks/message-text.ts';
import { columnsOf } from '../../src/records/table.ts';
import { facts as factsTable } from '../../src/records/tables/facts.ts';
import { jobs as jobsTable } from '../../src/records/tables/jobs.ts';
import { references } from '../../src/references.ts';
import { anyFacts } from './any-facts.ts';
import { limitsOf } from './limits-of.ts';

const folder = new URL('../../src/checks/', import.meta.url);
const files = readdirSync(folder, { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .flatMap((group) =>
    readdirSync(new URL(`${group.name}/`, folder)).map((file) => ({
      group: group.name,
      id: file.replace(/\.ts$/, ''),
    })),
  );

function frozen<T extends object>(value: T): T {
  for (const inner of Object.values(value)) if (typeof inner === 'object' && inner !== null) frozen(inner);
  return Object.freeze(value);
}

test('the list names every file of the folder, once, and nothing else', () => {
  const name = (one: { group: string; id: string }) => `${one.group}/${one.id}`;
  expect(checks.map(name).sort()).toEqual(files.map(name).sort());
  expect(new Set(checks.map((check) => check.id)).size).toBe(checks.length);
  for (const { id } of files) expect(checkNamed(id)?.id).toBe(id);
});

describe.each(checks.map((check) => [check.id, check] as const))('%s', (id, check) => {
  test('stands in the file that its group and id name', () => {
    expect(existsSync(new URL(`${check.group}/${id}.ts`, folder))).toBe(true);
  });

  test('asks a question, teaches in sentences, and never says that a system is safe', () => {
    expect(check.question).toMatch(/^[A-Z].*\?$/);
    expect(check.teach).toMatch(/\.$/);
    for (const text of [check.question, check.teach, ...Object.values(check.messages)])
      expect(text).not.toMatch(/\bsafe/i);
    for (const text of Object.values(check.messages)) expect(text).toMatch(/^[A-Z].*\.$/s);
  });

  test('needs facts that there are', () => {
    const known = columnsOf(factsTable).map((column) => column.name);
    expect(check.needs.length).toBeGreaterThan(0);
    for (const need of check.needs) expect(known).toContain(need);
  });

  test('has limits whose defaults hold to their own schema, with a source and a column that there are', () => {
    const columns = columnsOf(jobsTable).map((column) => column.name);
    for (const [name, spec] of Object.entries(check.limits)) {
      expect(spec.schema.safeParse(spec.default).success).toBe(true);
      expect(Object.keys(references)).toContain(spec.source);
      expect(spec.description).not.toBe('');
      if (spec.recorded !== undefined) expect(columns).toContain(spec.recorded);
      if (spec.unit !== undefined)
        expect(name.endsWith(`_${spec.unit.toLowerCase().replace('/', '_per_')}`)).toBe(true);
      if (name.endsWith('_ratio')) expect(spec.unit).toBeUndefined();
    }
  });

  test('a default that is only from memory is common practice, never a cited limit', () => {
    for (const spec of Object.values(check.limits))
      expect(spec.source === 'common-practice' || references[spec.source].basis === 'source').toBe(true);
  });

  test('cites works that there are', () => {
    expect(check.references.length).toBeGreaterThan(0);
    for (const key of check.references) expect(Object.keys(references)).toContain(key);
  });

  test('has a pass, another outcome, and an example of every message', () => {
    const shown = new Set(check.examples.map((example) => example.outcome));
    expect(shown).toContain('pass');
    expect(shown.size).toBeGreaterThan(1);
    expect([...new Set(check.examples.map((example) => example.message))].sort()).toEqual(
      Object.keys(check.messages).sort(),
    );
    expect(new Set(check.examples.map((example) => example.name)).size).toBe(check.examples.length);
  });

  test.each(check.examples.map((example) => [example.name, example] as const))('%s', (_, example) => {
    for (const [name, value] of Object.entries(example.limits ?? {}))
      expect(check.limits[name]?.schema.safeParse(value).success).toBe(true);
    const facts = frozen({ ...example.facts });
    expect(factsTable.schema.safeParse({ job_id: 'j', ...facts }).success).toBe(true);
    const judgement = check.judge(facts, frozen(limitsOf(check, example.limits)));
    expect([judgement.outcome, judgement.message]).toEqual([example.outcome, example.message]);
    for (const units of ['ip', 'si'] as const) {
      const text = messageText(check, judgement.message, judgement.evidence, units);
      expect(text).not.toMatch(/unknown|undefined|NaN|null|[{}]/);
      expect(text).toMatch(/^[A-Z].*\.$/s);
    }
  });

  test('judges whatever facts there are, without a throw, into one of the five outcomes and a message of its own', () => {
    fc.assert(
      fc.property(anyFacts, (facts) => {
        const judgement = check.judge(frozen(facts), limitsOf(check));
        expect(outcomes).toContain(judgement.outcome);
        expect(Object.keys(check.messages)).toContain(judgement.message);
        for (const units of ['ip', 'si'] as const)
          expect(messageText(check, judgement.message, judgement.evidence, units)).not.toMatch(
            /unknown|NaN|Infinity|[{}]/,
          );
        for (const figure of [judgement.value, judgement.limit, ...Object.values(judgement.evidence)])
          if (typeof figure === 'number') expect(figure).toSatisfy(Number.isFinite);
      }),
      { seed: 20, numRuns: 400 },
    );
  });

  test('a fact alone, or without those that go with it, makes no throw either', () => {
    fc.assert(
      fc.property(anyFacts, fc.infiniteStream(fc.boolean()), (facts, coins) => {
        const some = Object.fromEntries(Object.entries(facts).filter(() => coins.next().value));
        const judgement = check.judge(frozen(some), limitsOf(check));
        expect(outcomes).toContain(judgement.outcome);
        expect(Object.keys(check.messages)).toContain(judgement.message);
      }),
      { seed: 21, numRuns: 400 },
    );
  });
});
