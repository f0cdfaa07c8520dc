import { expect, test } from 'vitest';
import { minutes } from '../../src/charts/minutes.ts';

test.each([
  [0, 0],
  [90, 1.5],
  [100, 1.67],
  [-30, -0.5],
])('%d s are %d min', (seconds, inMinutes) => {
  expect(minutes(seconds)).toBe(inMinutes);
});
