import { describe, expect, test } from 'vitest';
import type { Check } from '../../src/checks/check.ts';
import { checkNamed } from '../../src/checks/checks.ts';
import { messageText } from '../../src/checks/message-text.ts';
import { asRecorded, resolveLimits } from '../../src/checks/policy.ts';
import { limitsOf } from './limits-of.ts';

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
      'Within 5 min of valve-off the pressure rose by 290 µm; a rise of 300 µm was allowed.',
    );
    expect(messageText(check, judged('level', 500).message, judged('level', 500).evidence, 'ip')).toBe(
      'Within 5 min of valve-off the pressure went from 450 µm to 740 µm; at most 500 µm was allowed.',
    );
  });

  test("a job's own limit goes before the default, and the finding says so", () => {
    const limits = resolveLimits(check, asRecorded, { rise_limit_pa: 300 * micron, rise_limit_kind: 'rise' });
    expect(limits.limit_pa).toEqual({ value: 300 * micron, source: 'record' });
    expect(check.judge(facts, limits).outcome).toBe('pass');
    expect(check.judge(facts, resolveLimits(check, asRecorded, undefined)).outcome).toBe('fail');
  });
});

describe('a limit counts when the record says, however long the system was watched', () => {
  // A straight climb by 40 µm a minute from 250 µm, watched for an hour: 450 µm after 5 min, 1 450 µm after 30 (own arithmetic).
  const micron = 0.133322368;
  const at = (minutes: number) => (250 + 40 * minutes) * micron;
  const facts = Object.freeze({
    vacuum_readings: 3600,
    isolation_start_s: 100,
    isolation_end_s: 3700,
    isolation_pa: at(0),
    isolation_end_pa: at(60),
    rise_pa: at(60) - at(0),
    rise_ladder: JSON.stringify([1, 2, 3, 5, 10, 15, 20, 30, 60].map((minutes) => [minutes * 60, at(minutes)])),
  });
  const check = checkNamed('rise-over-limit') as Check;

  test.each([
    [300, 'pass', 450],
    [600, 'fail', 650],
    [1800, 'fail', 1450],
    // Between two rungs, and before the first.
    [420, 'fail', 530],
    [30, 'pass', 270],
    // At the end where nothing is asked, and where more is asked than there is.
    [0, 'fail', 2650],
    [3660, 'fail', 2650],
  ] as const)('after %d s: %s, at %d µm', (after_s, outcome, levelMicron) => {
    const judgement = check.judge(facts, limitsOf(check, { after_s, limit_pa: 500 * micron }));
    expect(judgement.outcome).toBe(outcome);
    expect(judgement.value).toBeCloseTo(levelMicron * micron, 9);
    const rise = check.judge(facts, limitsOf(check, { after_s, kind: 'rise', limit_pa: 250 * micron }));
    expect(rise.outcome).toBe(levelMicron <= 500 ? 'pass' : 'fail');
    expect(rise.value).toBeCloseTo((levelMicron - 250) * micron, 9);
  });

  test('the text names the time at which it counts, not the whole isolation', () => {
    const { message, evidence } = check.judge(facts, limitsOf(check, { after_s: 300 }));
    expect(messageText(check, message, evidence, 'ip')).toBe(
      'Within 5 min of valve-off the pressure went from 250 µm to 450 µm; at most 500 µm was allowed.',
    );
  });

  test("the job's own test length goes before the default, and a short test that is within the limit is not judged", () => {
    const limits = resolveLimits(check, asRecorded, { rise_test_s: 300 });
    expect(limits.after_s).toEqual({ value: 300, source: 'record' });
    expect(check.judge(facts, limits).outcome).toBe('pass');
    const { rise_ladder: _, ...early } = facts;
    const lasting = (isolationS: number, more: object = {}) => ({
      ...early,
      isolation_end_s: 100 + isolationS,
      isolation_end_pa: at(isolationS / 60),
      rise_pa: at(isolationS / 60) - at(0),
      ...more,
    });
    expect(check.judge(lasting(284), limits).message).toBe('too-brief');
    expect(check.judge(lasting(285), limits).outcome).toBe('pass');
    expect(check.judge(lasting(284, { isolation_start_low_s: 98 }), limits).outcome).toBe('pass');
    expect(check.judge(lasting(600), resolveLimits(check, asRecorded, { rise_test_s: 3600 })).message).toBe(
      'level-over',
    );
  });
});
