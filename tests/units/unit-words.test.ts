import { describe, expect, test } from 'vitest';
import { anyUnitNames, unitOfWord } from '../../src/units/unit-words.ts';

describe('unitOfWord', () => {
  test.each(anyUnitNames)('%s is a word for itself, and whatever its case, save for MPa', (name) => {
    const found = (word: string) => unitOfWord(word);
    expect(found(name)).toEqual({ unit: name });
    for (const word of [name.toLowerCase(), name.toUpperCase()].filter((other) => other !== name)) {
      expect(found(word)).toEqual(name === 'MPa' ? undefined : { unit: name });
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
  ])('%s is %s', (word, unit) => {
    expect(unitOfWord(word)).toEqual({ unit });
  });

  test.each(['', 'x', 'mPa', 'psi g', 'in.', 'degrees', 'toString', '__proto__', 'inHg vacuum abs', 'F F'])(
    '"%s" is no unit, and nothing near it is guessed',
    (word) => {
      expect(unitOfWord(word)).toBeUndefined();
      expect(unitOfWord(word, true)).toBeUndefined();
    },
  );

  test.each([
    ['psi', 'psig or psia', 'psia'],
    ['PSI', 'psig or psia', 'psia'],
    ['inHg', '"inHg vacuum" (below the atmosphere) or inHga (absolute)', 'inHga'],
    ['in Hg', '"inHg vacuum" (below the atmosphere) or inHga (absolute)', 'inHga'],
    ['mmHg', 'Torr (absolute)', 'Torr'],
  ])('%s says neither gauge nor absolute: write %s; of a barometer it is %s', (word, write, absolute) => {
    expect(unitOfWord(word)).toEqual({ write });
    expect(unitOfWord(word, true)).toEqual({ unit: absolute });
  });
});
