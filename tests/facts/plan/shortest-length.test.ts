import { describe, expect, test } from 'vitest';
import { leastLengthS, mostLengthS, shortestLength } from '../../../src/facts/plan/shortest-length.ts';

describe('shortestLength', () => {
  // Of a test that sees 7200/t, a leak of 1 takes 7200 s.
  const seen = (durationS: number) => 7200 / durationS;

  test.each([
    [1, 7200],
    [1.001, 7200],
    [0.999, 7500],
    [2.01, 3600],
    [24, leastLengthS],
    [1000, leastLengthS],
    [0.0835, 86_400],
    [0.083, 90_000],
    [7200 / mostLengthS, mostLengthS],
  ])('a leak of %d takes %d s, rounded up to what a clock is set to', (loss, lengthS) => {
    expect(shortestLength(seen, loss)).toBe(lengthS);
  });

  test('none within seven days', () => {
    expect(shortestLength(seen, 0.0119)).toBeUndefined();
    expect(shortestLength(() => undefined, 1)).toBeUndefined();
  });

  test('a test that sees nothing until its readings are enough', () => {
    const late = (durationS: number) => (durationS < 1000 ? undefined : seen(durationS));
    expect(shortestLength(late, 100)).toBe(1020);
  });

  test('one that falls in steps, and a hair up again between them, still sees the leak at the length that is given', () => {
    const stepped = (durationS: number) => seen(durationS) * (1 + 0.004 * Math.sin(durationS));
    for (const loss of [0.1, 0.5, 1, 3, 10]) {
      const lengthS = shortestLength(stepped, loss) ?? Number.NaN;
      expect(stepped(lengthS)).toBeLessThanOrEqual(loss);
    }
  });
});
