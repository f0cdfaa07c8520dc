import { expect, test } from 'vitest';
import { scaleStepKg } from '../../src/accounts/scale-step.ts';

test.each([
  [[12.3, 11.6, 11.5, 10, 9.9, 8.1], 0.1],
  [[12.35, 11.6, 11.55, 10.05, 9.95, 8.1], 0.05],
  [[12.34, 11.6, 11.58, 10.02, 9.96, 8.12], 0.02],
  [[12.34, 11.61, 11.58, 10.02, 9.96, 8.12], 0.01],
  [[12.345, 11.61, 11.58, 10.02, 9.96, 8.12], 0.005],
  [[12.346, 11.612, 11.58, 10.02, 9.96, 8.12], 0.002],
  [[12.341, 11.612, 11.58, 10.02, 9.96, 8.12], 0.001],
  // Finer than any step that is known.
  [[12.3414, 11.612, 11.58, 10.02, 9.96, 8.12], 0.001],
  // Of fewer than six weights nothing is told; 0 is a weight.
  [[12.5, 11.5, 10.5, 9.5, 8.5], 0.01],
  [[], 0.01],
  [[0, 0.5, 0, 1.2, 0, 3.3], 0.1],
])('%j are multiples of %d kg', (weightsKg, stepKg) => {
  expect(scaleStepKg(weightsKg)).toBe(stepKg);
});
