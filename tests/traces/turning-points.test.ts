import fc from 'fast-check';
import { expect, test } from 'vitest';
import { turningPoints } from '../../src/traces/turning-points.ts';

test.each([
  ['down and up', [5, 1, 4], 2, ['falling 0–1', 'rising 1–2']],
  ['a wiggle below the threshold is no turn', [9, 5, 6, 2, 1], 2, ['falling 0–4']],
  ['a change of just the threshold is one', [4, 2, 4], 2, ['falling 0–1', 'rising 1–2']],
  ['up, down, up', [1, 5, 4, 8, 2, 3, 9], 3, ['rising 0–3', 'falling 3–4', 'rising 4–6']],
  ['the first of equal peaks turns', [0, 5, 5, 0], 3, ['rising 0–1', 'falling 1–3']],
  ['flat', [3, 3, 3], 1, []],
  ['never as far as the threshold', [3, 4, 3, 4], 2, []],
  ['one value', [3], 1, []],
  ['none', [], 1, []],
] as const)('%s', (_, values, threshold, legs) => {
  expect(turningPoints(values, threshold).map(({ direction, from, to }) => `${direction} ${from}–${to}`)).toEqual(legs);
});

test('legs follow each other, take turns, and each goes at least the threshold', () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: -20, max: 20 }), { maxLength: 60 }),
      fc.integer({ min: 1, max: 9 }),
      (values, threshold) => {
        const legs = turningPoints(values, threshold);
        for (const [index, leg] of legs.entries()) {
          const next = legs[index + 1];
          if (next === undefined) expect(leg.to).toBe(values.length - 1);
          else {
            expect(next.from).toBe(leg.to);
            expect(next.direction).not.toBe(leg.direction);
            const change = values[leg.to] - values[leg.from];
            expect(leg.direction === 'rising' ? change : -change).toBeGreaterThanOrEqual(threshold);
          }
        }
      },
    ),
    { seed: 1 },
  );
});
