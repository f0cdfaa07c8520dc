import { describe, expect, test } from 'vitest';
import { pressureChangeText, temperatureChangeText } from '../../src/units/display.ts';

describe('pressureChangeText', () => {
  test.each([
    [6894.757, '1.00 psi', '0.0689 bar'],
    [41369, '6.00 psi', '0.414 bar'],
    [-1_500_000, '−218 psi', '−15.0 bar'],
    [-672, '−0.10 psi', '−0.0067 bar'],
    [20, '0 psi', '0.0002 bar'],
    [0, '0 psi', '0 bar'],
  ])('%d Pa is %s or %s', (changePa, ip, si) => {
    expect([pressureChangeText(changePa, 'ip'), pressureChangeText(changePa, 'si')]).toEqual([ip, si]);
  });
});

describe('temperatureChangeText', () => {
  test.each([
    [10, '18.0 °F', '10.0 K'],
    [-0.5, '−0.9 °F', '−0.5 K'],
    [0.01, '0.0 °F', '0.0 K'],
  ])('%d K is %s or %s', (changeK, ip, si) => {
    expect([temperatureChangeText(changeK, 'ip'), temperatureChangeText(changeK, 'si')]).toEqual([ip, si]);
  });
});
