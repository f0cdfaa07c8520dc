import { existsSync, readdirSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Check, type Limits, type LimitSpecs, outcomes } from '../../src/checks/check.ts';
import { checkNamed, checks } from '../../src/checks/checks.ts';
import { messageText } from '../../src/checks/message-text.ts';
import { asRecorded, resolveLimits } from '../../src/checks/policy.ts';
import { holdLadder } from '../../src/facts/hold-ladder.ts';
import { columnsOf } from '../../src/records/table.ts';
import { type Facts, facts as factsTable } from '../../src/records/tables/facts.ts';
import { jobs as jobsTable } from '../../src/records/tables/jobs.ts';
import { references } from '../../src/references.ts';

const folder = new URL('../../src/checks/', import.meta.url);
const files = readdirSync(folder, { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .flatMap((group) =>
    readdirSync(new URL(`${group.name}/`, folder)).map((file) => ({
      group: group.name,
      id: file.replace(/\.ts$/, ''),
    })),
  );

/** Limits as an example sets them; the rest at their defaults. */
function limitsOf(check: Check, set: Readonly<Record<string, number | string>> = {}): Limits<LimitSpecs> {
  return Object.fromEntries(
    Object.entries(check.limits).map(([name, spec]) => [
      name,
      { value: set[name] ?? spec.default, source: spec.source },
    ]),
  );
}

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
      if (spec.unit !== undefined) expect(name.endsWith(`_${spec.unit.toLowerCase()}`)).toBe(true);
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
        expect(messageText(check, judgement.message, judgement.evidence, 'ip')).not.toMatch(/unknown|NaN|[{}]/);
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

const pressure = fc.double({ min: 0.01, max: 100000, noNaN: true });
const seconds = fc.double({ min: 0, max: 100000, noNaN: true });
const mass = fc.double({ min: -10, max: 50, noNaN: true });
const someLadder = fc.array(pressure, { minLength: 3, maxLength: 9 }).map((vacuumPa) =>
  JSON.stringify(
    holdLadder(
      {
        gauge: null,
        elapsedS: Float64Array.from(vacuumPa, (__, index) => index),
        vacuumPa: Float64Array.from(vacuumPa),
      },
      0,
      vacuumPa.length - 1,
      undefined,
    ),
  ),
);

/** Facts as any mixture could be: each there or not; what jobFacts always gives together comes together. */
const anyFacts: fc.Arbitrary<Partial<Facts>> = fc
  .tuple(
    fc.record(
      { vacuum_readings: fc.nat(5000), gauge_accuracy_ratio: fc.double({ min: 0, max: 1, noNaN: true }) },
      {
        requiredKeys: [],
      },
    ),
    fc.option(fc.constantFrom('compound-gauge' as const, 'too-few-readings' as const), { nil: undefined }),
    fc.record(
      {
        deepest_pa: pressure,
        hold_s: seconds,
        hold_ladder: someLadder,
        marked: fc.boolean(),
        pumped_until: fc.constantFrom('isolation' as const, 'break' as const, 'log-end' as const),
      },
      { requiredKeys: ['hold_s'] },
    ),
    fc.option(
      fc.record({
        isolation_start_s: seconds,
        isolation_end_s: seconds,
        isolation_pa: pressure,
        isolation_end_pa: pressure,
        rise_pa: pressure,
      }),
      { nil: undefined },
    ),
    fc.option(
      fc.record({
        charge_target_kg: mass,
        charged_kg: mass,
        charge_wanted_kg: mass,
        charge_deviation_kg: mass,
      }),
      { nil: undefined },
    ),
    fc.option(fc.constantFrom('no-weigh-in' as const, 'no-adder' as const, 'top-up' as const), { nil: undefined }),
  )
  .map(([log, problem, pull, isolation, charge, chargeProblem]) => ({
    ...log,
    ...(problem === undefined || log.vacuum_readings === undefined ? {} : { vacuum_problem: problem }),
    ...pull,
    ...isolation,
    ...charge,
    ...(chargeProblem === undefined ? {} : { charge_problem: chargeProblem }),
  }));

describe('a limit on the rise and a limit on the level are two rules', () => {
  // 450 → 740 µm in 5 min: passes a rise of at most 300 µm, fails a level of at most 500 µm (own arithmetic: 290, 740).
  const micron = 0.133322368;
  const facts = Object.freeze({
    vacuum_readings: 900,
    isolation_start_s: 0,
    isolation_end_s: 300,
    isolation_pa: 450 * micron,
    isolation_end_pa: 740 * micron,
    rise_pa: 290 * micron,
  });
  const check = checkNamed('rise-over-limit') as Check;
  const judged = (kind: string, limitMicron: number) =>
    check.judge(facts, limitsOf(check, { kind, limit_pa: limitMicron * micron }));

  test.each([
    ['rise', 300, 'pass', 290],
    ['level', 500, 'fail', 740],
    ['rise', 289, 'fail', 290],
    ['level', 741, 'pass', 740],
  ] as const)('%s of at most %d µm: %s', (kind, limitMicron, outcome, valueMicron) => {
    const judgement = judged(kind, limitMicron);
    expect(judgement.outcome).toBe(outcome);
    expect(judgement.value).toBeCloseTo(valueMicron * micron, 9);
    expect(judgement.limit).toBeCloseTo(limitMicron * micron, 9);
  });

  test('the text names the rule', () => {
    expect(messageText(check, judged('rise', 300).message, judged('rise', 300).evidence, 'ip')).toBe(
      'Isolated for 5 min, the pressure rose by 290 µm; a rise of 300 µm was allowed.',
    );
    expect(messageText(check, judged('level', 500).message, judged('level', 500).evidence, 'ip')).toBe(
      'Isolated for 5 min, the pressure went from 450 µm to 740 µm; at most 500 µm was allowed.',
    );
  });

  test("a job's own limit goes before the default, and the finding says so", () => {
    const limits = resolveLimits(check, asRecorded, { rise_limit_pa: 300 * micron, rise_limit_kind: 'rise' });
    expect(limits.limit_pa).toEqual({ value: 300 * micron, source: 'record' });
    expect(check.judge(facts, limits).outcome).toBe('pass');
    expect(check.judge(facts, resolveLimits(check, asRecorded, undefined)).outcome).toBe('fail');
  });
});
