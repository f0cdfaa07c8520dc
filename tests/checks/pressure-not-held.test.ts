import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Check } from '../../src/checks/check.ts';
import { checkNamed } from '../../src/checks/checks.ts';
import { messageText } from '../../src/checks/message-text.ts';
import type { Facts } from '../../src/records/tables/facts.ts';
import { anyPressureTest } from './any-facts.ts';
import { limitsOf } from './limits-of.ts';

const check = checkNamed('pressure-not-held') as Check;
const judged = (facts: Partial<Facts>, limits: Record<string, number> = {}) =>
  check.judge(Object.freeze(facts), limitsOf(check, limits));

// 1 psi = 6894.757 Pa (NIST SP 811, B.9). 300 psig at 70 °F; at 60 °F 294.06 psig are to be expected (tests/references/
// nitrogen-compensation).
const psi = 6894.757;
const psig = (gauge: number) => gauge * psi + 101325;
const held: Partial<Facts> = {
  pressure_readings: 900,
  atmosphere_pa: 101325,
  pressure_hold_start_s: 0,
  pressure_settled_s: 300,
  pressure_hold_end_s: 3900,
  held_test_pa: psig(300),
  end_test_pa: psig(293.06),
  read_drop_pa: 6.94 * psi,
};
const logged: Partial<Facts> = {
  ...held,
  held_line_k: 294.26,
  end_line_k: 288.71,
  expected_end_test_pa: psig(294.06),
};

/** A corrected drop of 1 psi by its interval and its sure end; psi. */
const corrected = (lowPsi: number, highPsi: number, surePsi: number): Partial<Facts> => ({
  ...logged,
  pressure_drop_pa: psi,
  pressure_drop_low_pa: lowPsi * psi,
  pressure_drop_high_pa: highPsi * psi,
  pressure_drop_sure_pa: surePsi * psi,
  smallest_drop_seen_pa: 1.2 * psi,
});

describe('how sure a drop is, against what is allowed', () => {
  const near = 1e-6;
  test.each([
    ['sure, just above none', corrected(0.3, 1.7, near), 0, 'fail', 'dropped'],
    ['at its sure end none, and likely one', corrected(0.3, 1.7, 0), 0, 'suspect', 'maybe'],
    ['likely, just above none', corrected(near, 2, -0.3), 0, 'suspect', 'maybe'],
    ['at its low end none', corrected(0, 2, -0.3), 0, 'pass', 'held'],
    ['either way', corrected(-0.5, 2.5, -0.9), 0, 'pass', 'held'],
    ['at its high end none', corrected(-2, 0, -2.4), 0, 'pass', 'held'],
    ['likely a rise, just below none', corrected(-2, -near, -2.4), 0, 'suspect', 'rose'],
    ['sure, just above the allowance', corrected(0.7, 1.3, 0.5 + near), 0.5, 'fail', 'dropped'],
    ['sure, and at its sure end the allowance', corrected(0.7, 1.3, 0.5), 0.5, 'suspect', 'maybe'],
    ['likely, just above the allowance', corrected(0.5 + near, 1.5, 0.4), 0.5, 'suspect', 'maybe'],
    ['likely, and at its low end the allowance', corrected(0.5, 1.5, 0.4), 0.5, 'suspect', 'maybe'],
    ['likely, and within the allowance', corrected(0.5, 1.5, 0.4), 1, 'pass', 'allowed'],
    ['none to speak of, an allowance', corrected(-0.5, 2.5, -0.9), 0.5, 'pass', 'held'],
    ['likely a rise, an allowance', corrected(-2, -near, -2.4), 0.5, 'suspect', 'rose'],
  ] as const)('%s', (_, facts, allowedPsi, outcome, message) => {
    const judgement = judged(facts, { allowed_drop_pa: allowedPsi * psi });
    expect([judgement.outcome, judgement.message]).toEqual([outcome, message]);
    expect(judgement).toMatchObject({ value: psi, limit: allowedPsi * psi, unit: 'Pa' });
    expect(judgement.evidence).toMatchObject({ allowed_source: 'common-practice', atmosphere_pa: 101325 });
  });

  test('a larger allowance never makes it worse, nor does a drop that is less sure', () => {
    const rank = ['pass', 'suspect', 'fail'];
    const size = fc.double({ min: -3, max: 6, noNaN: true });
    fc.assert(
      fc.property(fc.array(size, { minLength: 3, maxLength: 3 }), size, size, (ends, a, b) => {
        const [surePsi, lowPsi, highPsi] = ends.toSorted((x, y) => x - y);
        const facts = corrected(lowPsi, highPsi, surePsi);
        const [strict, lax] = [Math.max(0, Math.min(a, b)), Math.max(0, a, b)].map((allowedPsi) =>
          rank.indexOf(judged(facts, { allowed_drop_pa: allowedPsi * psi }).outcome),
        );
        expect(lax).toBeLessThanOrEqual(strict);
        const unsure = judged(corrected(lowPsi, highPsi, Math.min(lowPsi, 0)), { allowed_drop_pa: 0 });
        expect(unsure.outcome).not.toBe('fail');
      }),
      { seed: 22, numRuns: 400 },
    );
  });

  test('a pass needs to know what it could have seen; a sure drop does not', () => {
    const unseeing = { smallest_drop_seen_pa: undefined };
    expect(judged({ ...corrected(-0.5, 2.5, -0.9), ...unseeing }).message).toBe('not-known');
    expect(judged({ ...corrected(0.3, 1.7, 0.1), ...unseeing }).outcome).toBe('fail');
  });

  test('a pass says that there is no drop beyond what can be told, and how large one would have shown', () => {
    const { message, evidence } = judged(corrected(-0.5, 2.5, -0.9));
    const text = messageText(check, message, evidence, 'ip');
    expect(text).toContain('300.0 psig');
    expect(text).toContain('294.1 psig');
    expect(text).toContain('1.00 psi (−0.50 psi to 2.50 psi, 95 %)');
    expect(text).toContain('A drop of 1.20 psi would have shown');
    expect(text).not.toMatch(/tight|no leak/i);
  });
});

describe('without the temperature of the pipe', () => {
  test('nothing fails', () => {
    let suspects = 0;
    fc.assert(
      fc.property(anyPressureTest, fc.boolean(), ({ pressure_drop_pa: _, ...facts }, isClamped) => {
        const { outcome } = judged(isClamped ? facts : { ...facts, held_line_k: undefined, end_line_k: undefined });
        expect(outcome).not.toBe('fail');
        expect(outcome).not.toBe('pass');
        if (outcome === 'suspect') suspects += 1;
      }),
      { seed: 23, numRuns: 2000 },
    );
    expect(suspects).toBeGreaterThan(20);
  });

  test('nor does any limit make it fail', () => {
    const large = { ...held, read_drop_pa: 200 * psi, explaining_cooling_k: 190 };
    expect(judged(large, { swing_k: 0, allowed_drop_pa: 0 }).outcome).toBe('suspect');
  });

  test.each([
    ['as much cooling as a night is taken to make', 15, 'not-evaluated', 'no-temperature'],
    ['just more', 15.001, 'suspect', 'no-temperature-large'],
  ] as const)('%s', (_, coolingK, outcome, message) => {
    const judgement = judged({ ...held, explaining_cooling_k: coolingK });
    expect([judgement.outcome, judgement.message]).toEqual([outcome, message]);
    expect(judgement).toMatchObject({ value: coolingK, limit: 15, unit: 'K' });
    expect(judgement.evidence).toMatchObject({ swing_cooling_k: 15, swing_source: 'common-practice' });
  });

  test('a drop is said as read, with the cooling that explains it and what it would need', () => {
    const { message, evidence } = judged({ ...held, explaining_cooling_k: 6.5 });
    const text = messageText(check, message, evidence, 'si');
    expect(text).toContain('0.478 bar as read');
    expect(text).toContain('6.5 K');
    expect(text).toContain('with the temperature logged the test could be judged');
  });

  test('a pressure that rose has words of its own', () => {
    const rose = { ...held, end_test_pa: psig(303), read_drop_pa: -3 * psi, explaining_cooling_k: -2.8 };
    expect(judged(rose)).toMatchObject({ outcome: 'not-evaluated', message: 'no-temperature-no-fall' });
  });

  test('a clamp that was there is not said to be missing', () => {
    expect(judged(logged)).toMatchObject({ outcome: 'not-evaluated', message: 'not-known' });
  });
});
