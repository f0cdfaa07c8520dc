import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { DryholdError } from '../../src/errors.ts';
import { durationText, massText, temperatureText } from '../../src/units/display.ts';
import { parseQuantity } from '../../src/units/parse-quantity.ts';
import { quantityOf, siOf } from '../../src/units/quantity.ts';
import { anyUnitNames } from '../../src/units/unit-words.ts';
import { everyKind } from './every-kind.ts';

const parse = (text: string) => parseQuantity(text, everyKind);

describe('parseQuantity, whatever it is given', () => {
  test('value → text → value is the same number, for every unit', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...anyUnitNames),
        fc.integer({ min: 1, max: 1e9 }),
        fc.integer({ min: 0, max: 6 }),
        fc.constantFrom('', ' ', '\u00a0'),
        (unit, digits, decimals, gap) => {
          const text = (digits / 10 ** decimals).toFixed(decimals);
          expect(parse(`${text}${gap}${unit}`)).toEqual(quantityOf(Number(text), unit));
        },
      ),
      { seed: 22, numRuns: 1000 },
    );
  });

  test('reads what is shown: masses, durations and temperatures to the digits they are shown with', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -400, max: 400, noNaN: true }),
        fc.constantFrom('ip' as const, 'si' as const),
        (value, system) => {
          expect(massText(siOf(parseQuantity(massText(value, system), ['mass'])), system)).toBe(
            massText(value, system),
          );
          const warm = temperatureText(value + 401, system);
          expect(temperatureText(siOf(parse(warm)), system)).toBe(warm);
          const long = durationText(value * 8000);
          expect(durationText(siOf(parseQuantity(long, ['duration'])))).toBe(long);
        },
      ),
      { seed: 23, numRuns: 500 },
    );
  });

  test('any text gives a finite quantity of a wanted kind or a DryholdError, never a silent NaN', () => {
    const numbers = fc.constantFrom('0', '25', '1.5', '.5', '3/8', '1 1/8', '1,5', '1e9', '5,280', '');
    const gaps = fc.constantFrom('', '', ' ', '\u00a0', '-', "'");
    const words = fc.constantFrom(
      'F',
      '°C',
      'psig',
      'psi',
      'lb',
      'oz',
      'inHg vacuum',
      'in',
      'micron',
      '°',
      '#',
      'mpa',
      'x',
      '\u001b',
      '½',
      '',
    );
    const amounts = fc.tuple(gaps, numbers, gaps, words).map((pieces) => pieces.join(''));
    const texts = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 12 }),
      fc.array(amounts, { minLength: 1, maxLength: 2 }).map((some) => some.join('')),
    );
    let read = 0;
    fc.assert(
      fc.property(texts, (text) => {
        try {
          expect(Number.isFinite(siOf(parse(text)))).toBe(true);
          read += 1;
        } catch (error) {
          if (!(error instanceof DryholdError)) throw error;
          expect(['unreadable-quantity', 'out-of-range']).toContain(error.code);
          expect(error.message).not.toMatch(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}]/u);
        }
      }),
      { seed: 24, numRuns: 2000 },
    );
    expect(read).toBeGreaterThan(50);
  });
});
