import { describe, expect, test } from 'vitest';
import { composeRefrigerant, refrigerantNamed } from '../../../src/physics/index.ts';

describe('composing', () => {
  test.each([
    [{ 'R-32': 0.5, 'R-125': 0.49 }, 'sum of the mass fractions of mine out of range: must be 1, received 0.99'],
    [{ 'R-32': 0.5, 'R-125': 0.49999 }, 'must be 1, received 0.99999'],
    [{ 'R-32': 50, 'R-125': 50 }, 'sum of the mass fractions of mine out of range: must be 1, received 100'],
    [{ 'R-32': 1.2, 'R-125': -0.2 }, 'mass fraction of R-125 in mine out of range: must be above 0, received -0.2'],
    [{ 'R-32': 1, 'R-125': 0 }, 'mass fraction of R-125 in mine out of range: must be above 0, received 0'],
    [{ 'R-32': Number.NaN }, 'mass fraction of R-32 in mine out of range: must be above 0, received NaN'],
    [{}, 'sum of the mass fractions of mine out of range: must be 1, received 0'],
    [{ 'R-13': 1 }, 'no equation of state for "R-13"; known: R-22, R-32'],
  ] as [Record<string, number>, string][])('refuses %j', (fractions, text) => {
    expect(() => composeRefrigerant('mine', fractions)).toThrow(text);
  });

  test('takes fractions as they are rounded in print', () => {
    const thirds = composeRefrigerant('thirds', { 'R-32': 0.3333333, 'R-125': 0.3333333, 'R-134a': 0.3333333 });
    for (const fraction of thirds.massFractions) expect(fraction).toBeCloseTo(1 / 3, 12);
  });

  test('names the pairs that nobody published', () => {
    expect(refrigerantNamed('R-448A').estimatedPairs).toEqual([]);
    expect(composeRefrigerant('mine', { 'R-22': 0.3, 'R-125': 0.7 }).estimatedPairs).toEqual(['R-22 with R-125']);
  });

  test('knows no refrigerant without an equation of state', () => {
    expect(() => refrigerantNamed('R-11')).toThrow('no equation of state for "R-11"; known: R-22, R-32');
  });
});
