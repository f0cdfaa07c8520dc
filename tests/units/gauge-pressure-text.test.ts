import { describe, expect, test } from 'vitest';
import { gaugePressureText } from '../../src/units/display.ts';
import { parseQuantity } from '../../src/units/parse-quantity.ts';

describe('gaugePressureText', () => {
  // 1 bar is 100000 Pa; 400 psi are 27.579 bar.
  test.each([
    [101_325 + 2_757_903, 101_325, '400.0 psig', '27.58 bar gauge'],
    [84_307 + 2_757_903, 84_307, '400.0 psig', '27.58 bar gauge'],
    [101_325, 101_325, '0.0 psig', '0.00 bar gauge'],
    [51_325, 101_325, '14.8 inHg vacuum', '−0.50 bar gauge'],
  ])('%d Pa under %d Pa: %s, %s', (pressurePa, atmospherePa, ip, si) => {
    expect(gaugePressureText(pressurePa, atmospherePa, 'ip')).toBe(ip);
    expect(gaugePressureText(pressurePa, atmospherePa, 'si')).toBe(si);
    const { gauge } = parseQuantity(si.replace('−', '-'), ['gauge-pressure']);
    expect(Math.abs(gauge.gaugePa + atmospherePa - pressurePa)).toBeLessThanOrEqual(500.1);
  });

  test('there is none below a perfect vacuum', () => {
    expect(() => gaugePressureText(-1, 101_325, 'si')).toThrow('pressure [Pa] out of range: must be at least 0');
  });
});
