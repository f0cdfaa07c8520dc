import { describe, expect, test } from 'vitest';
import { parseRefrigerant } from '../../../src/physics/index.ts';

describe('parseRefrigerant', () => {
  test.each([
    ['R-410A', 'R-410A'],
    ['r410a', 'R-410A'],
    [' 454B ', 'R-454B'],
    ['R1234ze(E)', 'R-1234ze(E)'],
    ['r-1234zee', 'R-1234ze(E)'],
    ['R-32/125 (50/50)', 'R-32/125 (50/50)'],
    ['R-32/R-125 50/50', 'R-32/125 (50/50)'],
    ['R-32 / 125 (50% / 50%)', 'R-32/125 (50/50)'],
    ['r32/1234ze(E) (68.5/31.5)', 'R-32/1234ze(E) (68.5/31.5)'],
    ['R-32/125/134a (23/25/52)', 'R-32/125/134a (23/25/52)'],
  ])('%j is %s', (text, designation) => {
    const refrigerant = parseRefrigerant(text);
    expect(refrigerant.designation).toBe(designation);
    expect(parseRefrigerant(refrigerant.designation)).toEqual(refrigerant);
  });

  test.each([
    ['R-11', 'no equation of state for "R-11"; known: R-22, R-32'],
    ['R1234ze', 'did you mean R-1234ze(E)?'],
    ['407', 'did you mean R-407C?'],
    ['R-454', 'did you mean R-454A or R-454B or R-454C?'],
    ['', 'no equation of state for ""'],
    ['R-32/125', 'the shares in per cent by mass are missing'],
    ['R-32/410A (50/50)', 'no equation of state for "410A"; known: R-22, R-32'],
    ['R-32/125 (50/60)', 'the shares add up to 110 %, not 100 %'],
    ['R-32/125/134a (33.3/33.3/33.3)', 'the shares add up to 99.9 %, not 100 %'],
    ['R-32/125 (100/0)', 'a component without a share'],
    ['R-32/32 (50/50)', 'as many different components as shares'],
    ['R-32/125 (30/30/40)', 'as many different components as shares'],
    ['R-32/125 (5.0.1/50)', 'the shares in per cent by mass are missing'],
  ])('refuses %j', (text, says) => {
    expect(() => parseRefrigerant(text)).toThrow(says);
  });
});
