import { describe, expect, test } from 'vitest';
import { planAnswer } from '../../../src/facts/plan/plan-answer.ts';
import type { TestPlan } from '../../../src/facts/plan/test-plan.ts';
import { MICRON_PA } from '../synthetic-log.ts';

const psiPa = 6894.757293168;
const plan: TestPlan = {
  volumeL: 5,
  refrigerant: 'R-410A',
  atmospherePa: 101_325,
  pressureTest: {
    testPa: 314.696 * psiPa,
    stepPa: psiPa,
    intervalS: 60,
    temperatureK: 294.26,
    temperatureUncertaintyK: 2 / 1.8,
  },
  riseTest: {
    fromPa: 200 * MICRON_PA,
    stepPa: MICRON_PA,
    noiseRatio: 0.01,
    intervalS: 2,
    pumpedS: 1800,
  },
};

describe('planAnswer', () => {
  test.each([0.01, 0.1, 0.5, 2, 10])(
    'a leak of %d kg a year: the length that it gives sees it, one shorter does not',
    (loss) => {
      const { needed } = planAnswer(plan, { durationsS: [], lossKgPerYear: loss });
      const rowsAt = (durationS: number) => {
        const { pressureRows, riseRows } = planAnswer(plan, { durationsS: [durationS] });
        return { pressureTest: pressureRows[0], riseShown: riseRows[0].shown, riseTold: riseRows[0].told };
      };
      let held = 0;
      for (const test of ['pressureTest', 'riseShown', 'riseTold'] as const)
        for (const [end, edge] of [
          ['atBestS', 'lowKgPerYear'],
          ['atWorstS', 'highKgPerYear'],
        ] as const) {
          const lengthS = needed?.[test]?.[end];
          const seenAt = (durationS: number) => rowsAt(durationS)[test]?.[edge] ?? Number.POSITIVE_INFINITY;
          if (lengthS === undefined) {
            expect(seenAt(604_800)).toBeGreaterThan(loss);
            continue;
          }
          expect(seenAt(lengthS)).toBeLessThanOrEqual(loss);
          // Lengths are rounded up by no more than an hour.
          const shorterS = lengthS - (lengthS <= 7200 ? 60 : lengthS <= 43_200 ? 300 : lengthS <= 86_400 ? 900 : 3600);
          if (lengthS > 300) expect(seenAt(Math.max(300, shorterS))).toBeGreaterThan(loss * 0.995);
          held += 1;
        }
      expect(held).toBeGreaterThanOrEqual(2);
    },
  );

  test('at best is no longer than at worst, and to show takes no longer than to be told', () => {
    const { needed } = planAnswer(plan, { durationsS: [], lossKgPerYear: 0.2 });
    const at = (lengthS: number | undefined) => lengthS ?? Number.POSITIVE_INFINITY;
    for (const length of [needed?.pressureTest, needed?.riseShown, needed?.riseTold])
      expect(at(length?.atBestS)).toBeLessThanOrEqual(at(length?.atWorstS));
    expect(at(needed?.riseShown?.atWorstS)).toBeLessThanOrEqual(at(needed?.riseTold?.atWorstS));
  });

  test('tells of the tests that are planned, and of a leak only where one is asked for', () => {
    const { pressureTest, riseTest, ...circuit } = plan;
    const rise = planAnswer({ ...circuit, riseTest }, { durationsS: [300, 600], lossKgPerYear: 1 });
    expect([rise.pressureRows.length, rise.riseRows.length]).toEqual([0, 2]);
    expect(Object.keys(rise.needed ?? {})).toEqual(['riseShown', 'riseTold']);
    const pressure = planAnswer({ ...circuit, pressureTest }, { durationsS: [300] });
    expect([pressure.pressureRows.length, pressure.riseRows.length, pressure.needed]).toEqual([1, 0, undefined]);
  });

  test('a vacuum leaves far more open of what a leak loses than pressure does', () => {
    const { pressureRows, riseRows } = planAnswer(plan, { durationsS: [3600] });
    const spread = (band: { lowKgPerYear: number; highKgPerYear: number } | undefined) =>
      (band?.highKgPerYear ?? 0) / (band?.lowKgPerYear ?? 0);
    expect(spread(pressureRows[0])).toBeLessThan(3);
    expect(spread(riseRows[0].told)).toBeGreaterThan(30);
  });

  test('refuses what it cannot tell of', () => {
    const question = { durationsS: [300] };
    expect(() => planAnswer({ ...plan, refrigerant: 'R-9999' }, question)).toThrow(
      expect.objectContaining({ code: 'unknown-refrigerant' }),
    );
    expect(() => planAnswer({ ...plan, volumeL: 0 }, question)).toThrow('volume [L] out of range: must be above 0');
  });
});
