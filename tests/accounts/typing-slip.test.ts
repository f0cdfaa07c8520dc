import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { typingSlip } from '../../src/accounts/typing-slip.ts';

describe('a slip of the hand', () => {
  test.each([
    [12.53, 12.35, 'digits-swapped'],
    [21.35, 12.35, 'digits-swapped'],
    [2.135, 1.235, 'digits-swapped'],
    // Over the point.
    [13.25, 12.35, 'digits-swapped'],
    [13.35, 12.35, 'digit-wrong'],
    [12.85, 12.35, 'digit-wrong'],
    [123.5, 12.35, 'point-moved'],
    [1.235, 12.35, 'point-moved'],
    [14.46, 12.35, null],
    // Two digits wrong, and two that are no neighbours.
    [13.45, 12.35, null],
    [15.32, 12.35, null],
    // No slip at all.
    [12.35, 12.35, null],
    [12.353, 12.35, null],
    [0, 12.35, null],
    [12.35, 0, null],
    [12.35, -1, null],
  ])('%d for %d: %s', (written, meant, slip) => {
    expect(typingSlip(written, meant, 0.004)).toBe(slip);
  });

  test('only as near as is asked', () => {
    expect(typingSlip(12.53, 12.37, 0.015)).toBeNull();
    expect(typingSlip(12.53, 12.37, 0.025)).toBe('digits-swapped');
  });

  test('every one that is made is found', () => {
    const weight = fc.integer({ min: 1000, max: 99_999 }).map((hundredths) => hundredths / 100);
    fc.assert(
      fc.property(weight, fc.nat(), fc.integer({ min: 0, max: 9 }), (meant, place, digit) => {
        const text = meant.toFixed(2);
        const at = text.split('').flatMap((sign, index) => (sign === '.' ? [] : [index]));
        const index = at[place % at.length];
        const written = Number(`${text.slice(0, index)}${digit}${text.slice(index + 1)}`);
        // What begins or ends with a 0 loses its digit where it is written as a number.
        if (written < 10 || String(written).length !== text.length) return;
        const expected = Math.abs(written - meant) < 0.004 ? [null] : ['digit-wrong', 'digits-swapped'];
        expect(expected).toContain(typingSlip(written, meant, 0.004));
      }),
      { seed: 18, numRuns: 500 },
    );
  });
});
