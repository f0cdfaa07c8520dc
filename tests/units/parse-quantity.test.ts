import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { DryholdError } from '../../src/errors.ts';
import { parseQuantity } from '../../src/units/parse-quantity.ts';
import { type QuantityKind, siOf } from '../../src/units/quantity.ts';
import { wantedText } from '../../src/units/wanted-text.ts';
import { everyKind } from './every-kind.ts';

const parse = (text: string) => parseQuantity(text, everyKind);

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
    ['40 degrees F', 'temperature', 499.67 / 1.8],
    ['40 deg F', 'temperature', 499.67 / 1.8],
    ['40 ° F', 'temperature', 499.67 / 1.8],
    ['40\u2109', 'temperature', 499.67 / 1.8],
    ['40 Fahrenheit', 'temperature', 499.67 / 1.8],
    ['40\u2103', 'temperature', 313.15],
    ['40 celsius', 'temperature', 313.15],
    ['40 centigrade', 'temperature', 313.15],
    ['118 psi gauge', 'gauge-pressure', 118 * 6894.757],
    ['118 psi g', 'gauge-pressure', 118 * 6894.757],
    ['118 psi a', 'absolute-pressure', 118 * 6894.757],
    ['118 psi absolute', 'absolute-pressure', 118 * 6894.757],
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
    ['0.2 ft3', 'volume', 0.2 * 0.3048 ** 3],
    ['0.2FT3', 'volume', 0.2 * 0.3048 ** 3],
    ['.2ft³', 'volume', 0.2 * 0.3048 ** 3],
    ['0.2 cu ft', 'volume', 0.2 * 0.3048 ** 3],
    ['2 cubic feet', 'volume', 2 * 0.3048 ** 3],
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
    ['1,2,3 Pa', 'write a number without thousands separators and with a decimal point'],
    ['1,20,000 Pa', 'write a number without thousands separators and with a decimal point'],
    ['1,200 psig 3 oz', 'write a number without thousands separators and with a decimal point'],
    ['1,200 psi', 'write a number without thousands separators and with a decimal point'],
    ['1,200', 'write a number without thousands separators and with a decimal point'],
    ['1e9F', 'write the number out, without an exponent'],
    ['1.5E-3 Pa', 'write the number out, without an exponent'],
    ['5 lb 6 psi', 'unknown unit "psi"'],
    ['1/2 psi', 'unknown unit "psi"'],
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

  test.each([
    ['40°', 'which degrees? write 40F or 40C'],
    ['40deg', 'which degrees? write 40F or 40C'],
    ['-40.5 degrees', 'which degrees? write -40.5F or -40.5C'],
    ['-300°', 'which degrees? write -300F'],
    ['118 psi', '"psi" says neither gauge nor absolute, write 118psig or 118psia'],
    ['-5PSI', '"psi" says neither gauge nor absolute, write -5psig'],
    ['29 inHg', '"inHg" says neither gauge nor absolute, write 29 inHg vacuum or 29 inHg absolute'],
    ['29 in Hg', '"inHg" says neither gauge nor absolute, write 29 inHg vacuum or 29 inHg absolute'],
    ['12 mmHg', '"mmHg" says neither gauge nor absolute, write 12 mmHg absolute'],
    ['0.8mpa', 'capitals matter in MPa, write 0.8MPa'],
    ['0.8 MPA', 'capitals matter in MPa, write 0.8MPa'],
    ['250 mPa', 'capitals matter in MPa, write 250MPa'],
    ['5,280 ft', 'a number takes a decimal point and nothing else, write 5280 ft or 5.280 ft'],
    ['1,200 psig', 'a number takes a decimal point and nothing else, write 1200 psig or 1.200 psig'],
    ['1,200,000 micron', 'a number takes a decimal point and nothing else, write 1200000 micron'],
    ['1,200.5ft', 'a number takes a decimal point and nothing else, write 1200.5ft'],
    ['1 200 micron', 'a number takes a decimal point and nothing else, write 1200 micron'],
    ['18\u00a0790 µm', 'a number takes a decimal point and nothing else, write 18790 µm'],
    ['1\u2019200 micron', 'a number takes a decimal point and nothing else, write 1200 micron'],
    ['1.200,5 Pa', 'a number takes a decimal point and nothing else, write 1200.5 Pa'],
    ['2,5 bar', 'a number takes a decimal point and nothing else, write 2.5 bar'],
    ['0,500 bar', 'a number takes a decimal point and nothing else, write 0.500 bar'],
    ['\u221221,5 C', 'a number takes a decimal point and nothing else, write \u221221.5 C'],
  ])('%s is refused with what to write: %s', (text, problem) => {
    expect(() => parse(text)).toThrow(
      expect.objectContaining({ code: 'unreadable-quantity', parameters: expect.objectContaining({ text, problem }) }),
    );
  });

  test('what to write goes by what is wanted', () => {
    const problemOf = (text: string, ...wanted: QuantityKind[]) => {
      try {
        return parseQuantity(text, wanted);
      } catch (error) {
        return (error as DryholdError<'unreadable-quantity'>).parameters.problem;
      }
    };
    for (const word of [' lbs', ' lb', '#', ' pounds']) {
      const text = `118${word}`;
      expect(parseQuantity(text, ['mass']).massKg).toBeCloseTo(118 * 0.45359237, 9);
      expect(problemOf(text, 'temperature', 'absolute-pressure', 'gauge-pressure')).toBe(
        'pounds per square inch? write 118psig or 118psia',
      );
      expect(problemOf(text, 'gauge-pressure')).toBe('pounds per square inch? write 118psig');
      expect(problemOf(text, 'absolute-pressure')).toBe('pounds per square inch? write 118psia');
      expect(problemOf(text, 'length')).toBe('lb measures a mass');
    }
    expect(problemOf('29 inHg', 'gauge-pressure')).toBe('"inHg" says neither gauge nor absolute, write 29 inHg vacuum');
    expect(problemOf('40°', 'length')).toBe('unknown unit "°"');
    expect(problemOf('5,280 ft', 'mass')).toMatch(/^write a number without/);
  });

  test('whatever a message says to write can be read, and as the same number', () => {
    const commands = fc.subarray([...everyKind], { minLength: 1 });
    const words = fc.constantFrom('°', ' deg', ' psi', 'inHg', ' mmHg', 'mpa', ' lbs', '#', ' ft', 'psig', ' bar', 'F');
    const separators = fc.constantFrom('', ',', ' ', '\u00a0', "'", '_', '.');
    let told = 0;
    fc.assert(
      fc.property(
        commands,
        fc.constantFrom('', '-', '+', '\u2212', '- '),
        fc.array(fc.constantFrom('0', '5', '28', '280', '000', '1234'), { minLength: 1, maxLength: 3 }),
        separators,
        words,
        (wanted, sign, groups, separator, word) => {
          try {
            parseQuantity(`${sign}${groups.join(separator)}${word}`, wanted);
          } catch (error) {
            if (!(error instanceof DryholdError)) throw error;
            const { problem = '' } = error.parameters as { problem?: string };
            const [, instead] = / write (.*\d.*)$/.exec(` ${problem}`) ?? [];
            for (const other of instead?.split(' or ') ?? []) {
              const quantity = parseQuantity(other, wanted);
              expect(wanted).toContain(quantity.kind);
              expect(other.replaceAll(/[^1-9]/g, '')).toBe(groups.join('').replaceAll('0', ''));
              told += 1;
            }
          }
        },
      ),
      { seed: 25, numRuns: 3000 },
    );
    expect(told).toBeGreaterThan(300);
  });

  test('an unknown unit is answered with examples of what is wanted', () => {
    expect(() => parseQuantity('6 gpm', ['flow'])).toThrow(
      'cannot read "6 gpm": unknown unit "gpm"; wanted: a flow, such as 6 cfm or 2.8 L/s',
    );
    for (const text of ['40 F foo', '40ºF', '5 lb -6 oz', '5½ lb', '5 constructor', '40 degrees psig']) {
      expect(() => parse(text)).toThrow(/: unknown unit "[^"]+"; wanted: /);
    }
  });

  test('every example in a message is what it is an example of', () => {
    for (const kind of everyKind) {
      const [, examples = ''] = / such as (.*)$/.exec(wantedText([kind])) ?? [];
      for (const example of examples.split(/, | or /)) expect(parseQuantity(example, [kind]).kind).toBe(kind);
    }
  });

  test('what a terminal would obey is shown, not echoed', () => {
    expect(() => parse('40\u001b[31mF')).toThrow(/^cannot read "40\\u\{1b\}\[31mF": /);
    expect(() => parse('40\u001bx')).toThrow('cannot read "40\\u{1b}x": unknown unit "\\u{1b}x"; wanted: ');
    expect(() => parse('40\tG\nH')).toThrow('cannot read "40\\u{9}G\\u{a}H": unknown unit "G H"; wanted: ');
    expect(() => parse('40 \u202eF\ud800')).toThrow('cannot read "40 \\u{202e}F\\u{d800}"');
    expect(siOf(parse('40\tF'))).toBeCloseTo(499.67 / 1.8, 9);
  });

  test('another kind than wanted is refused, gauge for absolute above all', () => {
    expect(() => parseQuantity('118 psig', ['absolute-pressure'])).toThrow(
      'cannot read "118 psig": psig measures a gauge pressure; wanted: an absolute pressure, such as 133 psia, 8.2 bar or 250 micron',
    );
    expect(() => parseQuantity('14.7 psia', ['gauge-pressure'])).toThrow(/psia measures an absolute pressure/);
    expect(() => parseQuantity('40F', ['mass', 'flow'])).toThrow(
      'cannot read "40F": F measures a temperature; wanted: a mass or a flow, such as 5 lb 6 oz, 3.5 oz, 2.4 kg, 6 cfm or 2.8 L/s',
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
});
