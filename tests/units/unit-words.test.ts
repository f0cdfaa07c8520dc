import { describe, expect, test } from 'vitest';
import { anyUnitNames, unitOfWord } from '../../src/units/unit-words.ts';

describe('unitOfWord', () => {
  test.each(anyUnitNames)('%s is a word for itself, and whatever its case, save for MPa', (name) => {
    const found = (word: string) => unitOfWord(word);
    expect(found(name)).toBe(name);
    for (const word of [name.toLowerCase(), name.toUpperCase()].filter((other) => other !== name)) {
      expect(found(word)).toBe(name === 'MPa' ? undefined : name);
    }
  });

  test.each([
    ['PSIG', 'psig'],
    ['Micron', 'micron'],
    ['MICRONS', 'micron'],
    ['kpa', 'kPa'],
    ['KPAG', 'kPag'],
    ['bara', 'bar'],
    ['\u00b5m', 'micron'],
    ['\u03bcm', 'micron'],
    ['µmHg', 'micron'],
    ['um Hg', 'micron'],
    ['inHg vacuum', 'inHgv'],
    ['in Hg Vac', 'inHgv'],
    ['inhg absolute', 'inHga'],
    ['°F', 'F'],
    ['degC', 'C'],
    ['k', 'K'],
    ['LBS', 'lb'],
    ['ounces', 'oz'],
    ['Feet', 'ft'],
    ['"', 'in'],
    ['CFM', 'cfm'],
    ['l/s', 'L/s'],
    ['degrees F', 'F'],
    ['deg f', 'F'],
    ['° F', 'F'],
    ['\u2109', 'F'],
    ['\u2103', 'C'],
    ['Fahrenheit', 'F'],
    ['degrees Fahrenheit', 'F'],
    ['celsius', 'C'],
    ['degree Celsius', 'C'],
    ['centigrade', 'C'],
    ['psi gauge', 'psig'],
    ['psi gage', 'psig'],
    ['PSI G', 'psig'],
    ['psi a', 'psia'],
    ['psi absolute', 'psia'],
    ['bar gauge', 'barg'],
    ['bar absolute', 'bar'],
    ['kPa g', 'kPag'],
    ['mmHg absolute', 'Torr'],
    ['#', 'lb'],
  ])('%s is %s', (word, unit) => {
    expect(unitOfWord(word)).toBe(unit);
  });

  test.each([
    '',
    'x',
    'mPa',
    'mpa absolute',
    'psi gg',
    'psi vacuum',
    'in.',
    '°',
    'degrees',
    'degrees psig',
    'degrees K',
    'toString',
    '__proto__',
    'inHg vacuum abs',
    'F F',
  ])('"%s" is no unit, and nothing near it is guessed', (word) => {
    expect(unitOfWord(word)).toBeUndefined();
    expect(unitOfWord(word, true)).toBeUndefined();
  });

  test.each([
    ['psi', 'psia'],
    ['PSI', 'psia'],
    ['inHg', 'inHga'],
    ['in Hg', 'inHga'],
    ['mmHg', 'Torr'],
    ['mm Hg', 'Torr'],
  ])('%s says neither gauge nor absolute, and is no unit; of a barometer it is %s', (word, absolute) => {
    expect(unitOfWord(word)).toBeUndefined();
    expect(unitOfWord(word, true)).toBe(absolute);
  });
});
