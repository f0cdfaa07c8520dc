import { expect, test } from 'vitest';
import { uncertainRiseText } from '../../src/units/uncertain-rise-text.ts';

const psi = 6894.757;

// A drop of −8 psi is a rise of 8; 8 psi are 0.55 bar.
test.each([
  [-8, -20, 4, 'ip', '8 psi (95 %: between a rise of 20 psi and a drop of 4 psi)'],
  [-8, -20, 4, 'si', '0.55 bar (95 %: between a rise of 1.38 bar and a drop of 0.28 bar)'],
  [-8, -12, -4, 'ip', '8.0 psi (4.0 to 12.0 psi, 95 %)'],
  [-8, -16, 0, 'ip', '8.0 psi (0.0 to 16.0 psi, 95 %)'],
  [-0.01, -5, 5, 'ip', undefined],
  [0, -5, 5, 'ip', undefined],
  [3, -1, 7, 'ip', undefined],
] as const)('a drop of %d psi (%d to %d) in %s: %s', (drop, low, high, units, text) => {
  expect(uncertainRiseText({ pa: drop * psi, lowPa: low * psi, highPa: high * psi }, units)).toBe(text);
});
