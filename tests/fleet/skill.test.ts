import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checks } from '../../src/checks/checks.ts';
import { type CheckShare, checkShares, leadingChecks } from '../../src/fleet/check-shares.ts';
import {
  checkSkill,
  gearOf,
  type Skill,
  skillOutcome,
  skillOutcomes,
  skills,
  testMadeSkill,
} from '../../src/fleet/skill.ts';
import { type AnyOutcome, anyFleet, anyOutcome, checkIds, jobsOf } from './any-fleet.ts';

describe('skills', () => {
  test('every check belongs to exactly one that is flagged', () => {
    const of = skills.filter(({ by }) => by === 'flagged').flatMap((skill) => skill.checkIds);
    expect(of.toSorted()).toEqual(checkIds.toSorted());
  });

  test('a check that asks for a test belongs to the tests made, all others to their group', () => {
    for (const { id, group, asks } of checks)
      expect([id, skills.find(({ by, checkIds: ids }) => by === 'flagged' && ids.includes(id))?.id]).toEqual([
        id,
        asks === undefined ? group : 'tests-made',
      ]);
  });

  test('a log is one of those that are missing, and is told by one check each', () => {
    for (const { checkIds: ids } of skills.filter(({ by }) => by === 'missing')) {
      expect(ids).toHaveLength(1);
      expect(checkIds).toContain(ids[0]);
    }
  });

  test('ids and titles are told apart, and no skill is named as a check is', () => {
    for (const name of ['id', 'title'] as const)
      expect(new Set(skills.map((skill) => skill[name])).size).toBe(skills.length);
    expect(skills.filter(({ id }) => checkIds.includes(id))).toEqual([]);
  });

  test('the tests made of all groups are the tests made', () => {
    const groups = new Set(checks.flatMap(({ group, asks }) => (asks === undefined ? [] : [group])));
    const of = [...groups].flatMap((group) => testMadeSkill(group).checkIds);
    expect(of.toSorted()).toEqual(skills.find(({ id }) => id === 'tests-made')?.checkIds.toSorted());
  });
});

describe('gear that could cause what checks flag', () => {
  test('is what any of them names, each once, in the order of groupings', () => {
    expect(gearOf(['leaking'])).toEqual(['hose-set', 'gauge']);
    expect(gearOf(['leaking', 'slow-pull-down', 'target-not-reached'])).toEqual(['pump', 'hose-set', 'gauge']);
    expect(gearOf(['gaps', 'clock'])).toEqual(['gauge', 'scale']);
  });

  test('is none where a test was cut short or left out, whatever was there', () => {
    expect(gearOf(['hold-short', 'gauge-at-pump'])).toEqual([]);
    for (const { id, checkIds: ids, instruments } of skills)
      if (ids.every((checkId) => checks.some((check) => check.id === checkId && check.asks === 'test-made')))
        expect([id, gearOf(ids), instruments]).toEqual([id, [], []]);
  });

  test('is looked at in each skill that has it, and in no other', () => {
    for (const { by, checkIds: ids, instruments } of skills)
      if (by === 'flagged') expect(instruments).toEqual(gearOf(ids));
    expect(checks.filter(({ gear = [] }) => gear.length > 0).length).toBeGreaterThan(5);
  });
});

const { clean, found, missing, notEvaluated } = skillOutcome;

/** What a skill of three checks comes to in one job, whatever is said of all other checks. */
function cameTo(of: readonly AnyOutcome[], others: AnyOutcome, by: Skill['by'] = 'flagged'): number {
  // Of the first and the last check of either number that holds the bits.
  const ids = [0, 31, 32].slice(0, of.length).map((at) => checkIds[at]);
  const ofJob = checkIds.map((id) => of[ids.indexOf(id)] ?? others);
  return skillOutcomes(jobsOf([ofJob]), { ...skills[0], checkIds: ids, by })[0];
}

describe('what a skill came to in a job', () => {
  test.each<[AnyOutcome[], number]>([
    [['pass', 'pass', 'pass'], clean],
    [['pass', 'not-evaluated', 'missing'], clean],
    [['not-evaluated', 'missing', 'pass'], clean],
    [['found', 'pass', 'pass'], found],
    [['pass', 'found', 'missing'], found],
    [['missing', 'not-evaluated', 'found'], found],
    [['missing', 'missing', 'missing'], missing],
    [['not-evaluated', 'missing', 'not-evaluated'], missing],
    [['not-evaluated', 'not-evaluated', 'not-evaluated'], notEvaluated],
  ])('%j', (of, expected) => {
    for (const others of ['pass', 'found', 'missing', 'not-evaluated'] as const)
      expect([others, cameTo(of, others)]).toEqual([others, expected]);
  });

  test.each<[AnyOutcome, number]>([
    ['missing', found],
    ['pass', clean],
    ['found', clean],
    ['not-evaluated', clean],
  ])('a log: %s', (outcome, expected) => {
    for (const others of ['pass', 'missing'] as const) expect(cameTo([outcome], others, 'missing')).toBe(expected);
  });

  test('a check alone comes to what it said', () => {
    const of: Record<AnyOutcome, number> = { pass: clean, found, missing, 'not-evaluated': notEvaluated };
    fc.assert(
      fc.property(anyFleet, fc.constantFrom(...checks), ({ jobs, outcomes }, check) => {
        const at = checkIds.indexOf(check.id);
        expect([...skillOutcomes(jobs, checkSkill(check))]).toEqual(outcomes.map((ofJob) => of[ofJob[at]]));
      }),
    );
  });

  test('whatever the others say, one check that flags makes it found, and one that passes makes it judged', () => {
    fc.assert(
      fc.property(fc.array(anyOutcome, { minLength: 3, maxLength: 3 }), fc.nat(2), (of, at) => {
        expect(cameTo(of.with(at, 'found'), 'pass')).toBe(found);
        expect(cameTo(of.with(at, 'pass'), 'pass')).toBeGreaterThanOrEqual(clean);
        expect(cameTo(of.with(at, 'missing'), 'pass')).not.toBe(notEvaluated);
      }),
    );
  });
});

test('checkShares counts each check that flags more of the unit than of all, over both, the most excess first', () => {
  fc.assert(
    fc.property(anyFleet, fc.constantFrom(...skills), fc.nat(4), ({ jobs, outcomes }, skill, unit) => {
      const shares = checkShares(jobs, skill, 'crew', unit);
      const isOwn = (_: unknown, job: number) => jobs.units.crew.of[job] === unit;
      const counts = (of: readonly (readonly AnyOutcome[])[], at: number) => ({
        found: of.filter((ofJob) => ofJob[at] === 'found').length,
        jobs: of.filter((ofJob) => ['found', 'pass'].includes(ofJob[at])).length,
      });
      const expected = skill.checkIds
        .map((checkId) => {
          const at = checkIds.indexOf(checkId);
          return { checkId, unit: counts(outcomes.filter(isOwn), at), all: counts(outcomes, at) };
        })
        // Whole numbers, so that what is as many as of all is no excess by rounding.
        .filter((share) => share.unit.found * share.all.jobs > share.unit.jobs * share.all.found);
      expect(new Set(shares)).toEqual(new Set(expected));
      const excesses = shares.map(excess);
      expect(excesses).toEqual(excesses.toSorted((a, b) => b - a));
    }),
  );
});

const excess = ({ unit, all }: CheckShare): number => unit.found - (unit.jobs * all.found) / all.jobs;

describe('leadingChecks', () => {
  test('are the first that make half of the excess, and no more', () => {
    fc.assert(
      fc.property(anyFleet, fc.constantFrom(...skills), fc.nat(4), ({ jobs }, skill, unit) => {
        const shares = checkShares(jobs, skill, 'technician', unit);
        const leading = leadingChecks(shares);
        expect(leading).toEqual(shares.slice(0, leading.length).map(({ checkId }) => checkId));
        const told = (of: readonly CheckShare[]) => of.reduce((sum, share) => sum + excess(share), 0);
        if (shares.length === 0) return;
        const half = told(shares) / 2;
        expect(told(shares.slice(0, leading.length))).toBeGreaterThan(half - 1e-9);
        expect(told(shares.slice(0, leading.length - 1))).toBeLessThan(half);
      }),
    );
  });

  test.each([
    [[9, 3, 2], ['a']],
    [
      [6, 5, 2],
      ['a', 'b'],
    ],
    [[4, 4], ['a']],
    [[], []],
  ])('of excesses of %j: %j', (founds, ids) => {
    const shares = founds.map((found, at) => ({
      checkId: 'abc'[at],
      unit: { found, jobs: 20 },
      all: { found: 0, jobs: 90 },
    }));
    expect(leadingChecks(shares)).toEqual(ids);
  });
});
