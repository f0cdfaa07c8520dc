import { expect, test } from 'vitest';
import { riseShape, type RiseShape } from '../../src/simulate/rise-shape.ts';

// Parts [Pa] from 30 Pa up, and the level limit [Pa]: with 130 Pa the room is 100 Pa and a tenth of it 10 Pa; 10 µm is 1.333 Pa.
test.each<[RiseShape, number, number, number, number | undefined]>([
  ['dry', 4, 4, 1, 130],
  ['moisture', 1, 10, 0, 130],
  ['leak', 10, 1, 0, 130],
  ['mixed', 6, 6, 0, 130],
  ['settling', 1, 1, 20, 130],
  ['dry', 0.5, 0.5, 0.3, undefined],
  ['moisture', 0, 2, 0, undefined],
  ['leak', 2, 0, 5, undefined],
  ['settling', 0.1, 0.1, 5, undefined],
  // No room left under the limit: nothing is dry.
  ['leak', 1, 0, 0, 30],
])('%s: leak %d, vapour %d, settling %d, limit %s', (shape, leakPa, vapourPa, settlingPa, levelLimitPa) => {
  expect(riseShape({ startPa: 30, leakPa, vapourPa, settlingPa }, levelLimitPa)).toBe(shape);
});
