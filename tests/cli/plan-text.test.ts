import { afterEach, describe, expect, test } from 'vitest';
import { planText } from '../../src/cli/plan-text.ts';
import { planAnswer } from '../../src/facts/plan/plan-answer.ts';
import { micron, plan } from '../facts/plan/plan-sample.ts';

const { columns } = process.stdout;
afterEach(() => {
  process.stdout.columns = columns;
});

/** The text of a plan on a terminal of so many columns. */
function told(width: number, lossKgPerYear?: number): string {
  process.stdout.columns = width;
  const answer = planAnswer(plan, { durationsS: [300, 86_400], lossKgPerYear });
  return planText(plan, answer, { units: 'ip', assumed: new Set(), lossKgPerYear });
}

describe('planText', () => {
  test.each([100, 80, 60, 50])('fits a terminal of %d columns, and leaves no column out', (width) => {
    const text = told(width, 0.1);
    expect(Math.max(...text.split('\n').map((line) => line.length))).toBeLessThanOrEqual(width);
    for (const head of [
      'at best',
      'whatever the opening',
      'drop',
      'climb that shows, µm/min',
      'told for a leak, µm/min',
    ])
      expect(text).toContain(head);
    expect(text.match(/loss in a year/g)?.length).toBe(3);
  });

  test('which test to trust rests on which sees the smaller leak', () => {
    expect(told(100).replace(/\s+/g, ' ')).toMatch(/Smaller ones, over 24 h down to .* only the rise test tells:/);
    const dull = {
      ...plan,
      riseTest: { fromPa: 4000 * micron, stepPa: 100 * micron, noiseRatio: 0.1, intervalS: 60, pumpedS: 1800 },
    };
    const answer = planAnswer(dull, { durationsS: [1200] });
    const text = planText(dull, answer, { units: 'ip', assumed: new Set() }).replace(/\s+/g, ' ');
    expect(answer.riseRows[0].told?.lowKgPerYear).toBeGreaterThan(answer.pressureRows[0].highKgPerYear);
    expect(text).toContain('Smaller ones the rise test does not tell either:');
  });
});
