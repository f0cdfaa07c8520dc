import { describe, expect, test } from 'vitest';
import { parsePercent } from '../../src/units/parse-percent.ts';
import { parsePressureChange } from '../../src/units/parse-pressure-change.ts';
import { parseTemperatureChange } from '../../src/units/parse-temperature-change.ts';

describe('parseTemperatureChange', () => {
  const range = { name: 'change', lowest: 0, highest: 30 };
  const parse = (text: string) => parseTemperatureChange(text, range);

  // A degree Fahrenheit is 1/1.8 K, whatever its zero.
  test.each([
    ['2F', 2 / 1.8],
    ['1.8 °F', 1],
    ['1K', 1],
    ['1.5 C', 1.5],
    ['0F', 0],
    ['+2 deg F', 2 / 1.8],
    ['54F', 30],
  ])('%s is %d K', (text, changeK) => {
    expect(parse(text)).toBeCloseTo(changeK, 9);
  });

  test.each([
    ['2', 'cannot read "2": no unit; wanted: a change of temperature, such as 2F or 1.1K'],
    ['2psi', '"psi" is no degree'],
    ['2F 1F', 'more than one number'],
    ['', 'no number'],
    ['-2F', 'change [F] out of range: must be 0 to 54, received -2'],
    ['31K', 'change [K] out of range: must be 0 to 30, received 31'],
  ])('"%s" is refused: %s', (text, says) => {
    expect(() => parse(text)).toThrow(says);
  });
});

describe('parsePressureChange', () => {
  const parse = (text: string) => parsePressureChange(text, { name: 'step', lowest: 1, highest: 1e6 });

  // 1 psi = 6894.757 Pa (NIST SP 811); 1 inHg = 3386.39 Pa.
  test.each([
    ['1psi', 6894.757],
    ['0.1 psia', 689.4757],
    ['5kPa', 5000],
    ['0.01bar', 1000],
    ['1 inHg', 3386.389],
    ['1Pa', 1],
  ])('%s is %d Pa', (text, changePa) => {
    expect(parse(text) / changePa).toBeCloseTo(1, 6);
  });

  test.each([
    ['0psi', 'step [psi] out of range: must be 0.00014504 to 145.03, received 0'],
    ['0psia', 'step [psi] out of range'],
    ['-1kPa', 'step [kPa] out of range: must be 0.001 to 1000, received -1'],
    ['1psig', '"psig" is a pressure, not a change of one; wanted: a change of pressure'],
    ['1F', '"F" is no unit of pressure'],
    ['1 furlong', 'unknown unit "furlong"'],
    ['1psi 2psi', 'more than one number'],
    ['1', 'no unit'],
  ])('"%s" is refused: %s', (text, says) => {
    expect(() => parse(text)).toThrow(says);
  });
});

describe('parsePercent', () => {
  const parse = (text: string) => parsePercent(text, { name: 'noise', lowest: 0, highest: 0.2 });

  test.each([
    ['1%', 0.01],
    ['0.5 %', 0.005],
    ['20 percent', 0.2],
    ['0 per cent', 0],
  ])('%s is %d', (text, ratio) => {
    expect(parse(text)).toBeCloseTo(ratio, 12);
  });

  test.each([
    ['1', 'cannot read "1": it needs its per cent sign; wanted: a share in per cent, such as 1% or 0.5%'],
    ['1 psi', 'it needs its per cent sign'],
    ['one %', 'no number'],
    ['1% 2%', 'it needs its per cent sign'],
    ['-1%', 'noise [%] out of range: must be 0 to 20, received -1'],
    ['21%', 'noise [%] out of range: must be 0 to 20, received 21'],
  ])('"%s" is refused: %s', (text, says) => {
    expect(() => parse(text)).toThrow(says);
  });
});
