import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { DryholdError } from '../../src/errors.ts';
import { durationText, massText, temperatureText } from '../../src/units/display.ts';
import { parseQuantity } from '../../src/units/parse-quantity.ts';
import { type Quantity, type QuantityKind, quantityOf } from '../../src/units/quantity.ts';
import { anyUnitNames } from '../../src/units/unit-words.ts';

const kinds: readonly QuantityKind[] = [
  'temperature',
  'absolute-pressure',
  'gauge-pressure',
  'mass',
  'length',
  'duration',
  'volume',
  'flow',
  'power',
];
const parse = (text: string) => parseQuantity(text, kinds);

/** The number in a quantity. */
function siOf(quantity: Quantity): number {
  const { kind: _, ...values } = quantity;
  const [value] = Object.values(values);
  return typeof value === 'object' ? value.gaugePa : (value as number);
}

describe('parseQuantity', () => {
  // By the definitions: lb 0.45359237 kg, 16 oz a pound, ft 0.3048 m, in 25.4 mm, psi 6894.757 Pa, inHg 3386.389 Pa, 760 000 µm of
  // mercury 101325 Pa, K = °C + 273.15 = (°F + 459.67)/1.8, cfm 0.4719474 L/s.
  test.each([
    ['40F', 'temperature', 499.67 / 1.8],
    ['40 °F', 'temperature', 499.67 / 1.8],
    ['\u00a040\u00a0degF ', 'temperature', 499.67 / 1.8],
    ['+40F', 'temperature', 499.67 / 1.8],
    ['-32.5C', 'temperature', 240.65],
    ['\u221232.5 °C', 'temperature', 240.65],
    ['\u2212 32.5 °C', 'temperature', 240.65],
    ['300K', 'temperature', 300],
    ['118psig', 'gauge-pressure', 118 * 6894.757],
    ['118 PSIG', 'gauge-pressure', 118 * 6894.757],
    ['-5 psig', 'gauge-pressure', -5 * 6894.757],
    ['29.9 inHg vacuum', 'gauge-pressure', -29.9 * 3386.389],
    ['8.2 barg', 'gauge-pressure', 820_000],
    ['8.2bar', 'absolute-pressure', 820_000],
    ['1 inHga', 'absolute-pressure', 3386.389],
    ['101.325 kPa', 'absolute-pressure', 101_325],
    ['14.69595 psia', 'absolute-pressure', 101_325],
    ['250 micron', 'absolute-pressure', (250 * 101_325) / 760_000],
    ['250 Microns', 'absolute-pressure', (250 * 101_325) / 760_000],
    ['250\u00b5m', 'absolute-pressure', (250 * 101_325) / 760_000],
    ['250 umHg', 'absolute-pressure', (250 * 101_325) / 760_000],
    ['5 lb 6 oz', 'mass', 86 * 0.028349523],
    ['5lb6oz', 'mass', 86 * 0.028349523],
    ['5.6 lb', 'mass', 5.6 * 0.45359237],
    ['5 lb 15.99 oz', 'mass', 95.99 * 0.028349523],
    ['\u22121 lb 1.2 oz', 'mass', -17.2 * 0.028349523],
    ['2.4 kg', 'mass', 2.4],
    ['.5 oz', 'mass', 0.0141747615],
    ['25 ft', 'length', 7.62],
    ['25 ft 6 in', 'length', 7.7724],
    ['25\' 6"', 'length', 7.7724],
    ['3/8 in', 'length', 0.009525],
    ['1 1/8 in', 'length', 0.028575],
    ['1-1/8"', 'length', 0.028575],
    ['25 ft 6 1/2 in', 'length', 7.7851],
    ['9.52 mm', 'length', 0.00952],
    ['-430 m', 'length', -430],
    ['6 cfm', 'flow', 6 * 0.4719474e-3],
    ['2.8 L/s', 'flow', 0.0028],
    ['15 min 5 s', 'duration', 905],
    ['1 h 30 min', 'duration', 5400],
    ['1 h 0 min 1.5 s', 'duration', 3601.5],
    ['4.2 L', 'volume', 0.0042],
    ['3.5 kW', 'power', 3500],
  ])('%s is a %s of %d', (text, kind, si) => {
    const quantity = parse(text);
    expect(quantity.kind).toBe(kind);
    expect(Math.abs(siOf(quantity) - si)).toBeLessThanOrEqual(2e-7 * Math.abs(si));
  });

  test.each([
    ['', 'no number'],
    ['F', 'no number'],
    ['-', 'no number'],
    ['NaN F', 'no number'],
    ['Infinity Pa', 'no number'],
    ['40', 'no unit'],
    ['-40', 'no unit'],
    ['5 lb 6', 'not a plain number followed by its unit'],
    ['5. oz', 'not a plain number followed by its unit'],
    ['--40 F', 'not a plain number followed by its unit'],
    ['1.2.3 F', 'not a plain number followed by its unit'],
    ['5 lb, 6 oz', 'not a plain number followed by its unit'],
    ['1,200 micron', 'write a number without thousands separators and with a decimal point'],
    ['1 200 micron', 'write a number without thousands separators and with a decimal point'],
    ['1\u00a0200 micron', 'write a number without thousands separators and with a decimal point'],
    ['1.200,5 Pa', 'write a number without thousands separators and with a decimal point'],
    ['21,5 C', 'write a number without thousands separators and with a decimal point'],
    ['118 psi', '"psi" says neither gauge nor absolute, write psig or psia'],
    [
      '29 inHg',
      '"inHg" says neither gauge nor absolute, write "inHg vacuum" (below the atmosphere) or inHga (absolute)',
    ],
    ['12 mmHg', '"mmHg" says neither gauge nor absolute, write Torr (absolute)'],
    ['5 lb 16 oz', 'beside lb there must be fewer than 16 oz'],
    ['5 lb 17 oz', 'beside lb there must be fewer than 16 oz'],
    ['25 ft 12 in', 'beside ft there must be fewer than 12 in'],
    ['1 h 60 min', 'beside h there must be fewer than 60 min'],
    ['5.5 lb 6 oz', 'before oz there must be whole lb'],
    ['5 oz 6 lb', 'lb cannot follow oz'],
    ['1 h 5 s', 's cannot follow h'],
    ['40 F 30 F', 'F cannot follow F'],
    ['5 lb 6 psig', 'psig cannot follow lb'],
    ['3/8 lb', 'a fraction goes with inches alone, write decimals'],
    ['40/50 F', 'a fraction goes with inches alone, write decimals'],
    ['9/8 in', '9/8 is not a fraction below 1'],
    ['3/0 in', '3/0 is not a fraction below 1'],
    ['0/0 in', '0/0 is not a fraction below 1'],
    [`${'9'.repeat(400)} Pa`, 'too large a number'],
    ['1000000000000000 MPa', 'too large a number'],
  ])('%s is refused: %s', (text, problem) => {
    expect(() => parse(text)).toThrow(
      expect.objectContaining({ code: 'unreadable-quantity', parameters: expect.objectContaining({ text, problem }) }),
    );
  });

  test('an unknown unit is answered with the units of what is wanted', () => {
    expect(() => parseQuantity('6 gpm', ['flow'])).toThrow(
      'cannot read "6 gpm": unknown unit "gpm", known: L/s, cfm; wanted: a flow, such as 6 cfm',
    );
    for (const text of ['5 mpa', '1e3 Pa', '40 F foo', '40ºF', '5 lb -6 oz', '5½ lb', '250 mPa', '5 constructor']) {
      expect(() => parse(text)).toThrow(/: unknown unit ".+", known: Pa, /);
    }
  });

  test('another kind than wanted is refused, gauge for absolute above all', () => {
    expect(() => parseQuantity('118 psig', ['absolute-pressure'])).toThrow(
      'cannot read "118 psig": psig measures a gauge pressure; wanted: an absolute pressure, such as 250 micron',
    );
    expect(() => parseQuantity('14.7 psia', ['gauge-pressure'])).toThrow(/psia measures an absolute pressure/);
    expect(() => parseQuantity('40F', ['mass', 'length'])).toThrow(
      'cannot read "40F": F measures a temperature; wanted: a mass or a length, such as 5 lb 6 oz, 25 ft',
    );
    // @ts-expect-error the type of what comes back knows the kinds that were asked for
    expect(parseQuantity('2 kg', ['mass']).lengthM).toBeUndefined();
  });

  test.each([
    ['-459.67 F', 'temperature [F] out of range: must be above -459.67, absolute zero, received -459.67'],
    ['-273.15 C', 'temperature [C] out of range: must be above -273.15, absolute zero, received -273.15'],
    ['-1 K', 'temperature [K] out of range: must be above 0.00, absolute zero, received -1'],
    ['0 micron', 'absolute pressure [micron] out of range: must be above 0, received 0'],
    ['-3 psia', 'absolute pressure [psia] out of range: must be above 0, received -3'],
    [
      '-29.9 inHg vacuum',
      'vacuum [inHgv] out of range: must be at least 0, counted down from the atmosphere, received -29.9',
    ],
  ])('%s is refused: %s', (text, message) => {
    expect(() => parse(text)).toThrow(message);
  });

  test('just inside the limits there is a quantity', () => {
    expect(siOf(parse('-459.66 F'))).toBeCloseTo(0.01 / 1.8, 9);
    expect(siOf(parse('0.001 micron'))).toBeGreaterThan(0);
    expect(siOf(parse('0 psig'))).toBe(0);
  });

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
    const numbers = fc.constantFrom('0', '25', '1.5', '.5', '3/8', '1 1/8', '1,5', '1e9', '');
    const gaps = fc.constantFrom('', '', ' ', '\u00a0', '-', "'");
    const words = fc.constantFrom('F', '°C', 'psig', 'psi', 'lb', 'oz', 'inHg vacuum', 'in', 'micron', 'x', '½', '');
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
        }
      }),
      { seed: 24, numRuns: 2000 },
    );
    expect(read).toBeGreaterThan(50);
  });
});
