import { describe, expect, test } from 'vitest';
import { ruleOfThumbSuperheat, targetSuperheat } from '../../../src/facts/run-test/target-superheat.ts';
import { referenceCells } from '../../reference-rows.ts';

const kelvin = (fahrenheit: number) => (fahrenheit - 32) / 1.8 + 273.15;
const rows = referenceCells('target-superheat').map((cells) => ({
  outdoorF: Number(cells.outdoor_f),
  wetBulbF: Number(cells.indoor_wet_bulb_f),
  first: cells.superheat_f,
  second: cells.second_maker_f,
}));
const table = rows.filter(({ outdoorF }) => outdoorF >= 55);
const figures = table.filter(({ first }) => first !== '-');

describe('reproduces the table of the first maker', () => {
  test.each(table.map((row) => [`${row.outdoorF}/${row.wetBulbF} °F: ${row.first}`, row] as const))('%s', (_, row) => {
    const found = targetSuperheat(kelvin(row.wetBulbF), kelvin(row.outdoorF));
    if (row.first === '-') expect(found).toBeUndefined();
    else expect((found ?? 0) * 1.8).toBeCloseTo(Number(row.first), 4);
  });

  test('118 figures and 64 dashes', () => {
    expect([figures.length, table.length]).toEqual([118, 182]);
  });

  test('the second maker differs by one degree in seven cells', () => {
    const differing = table.filter(({ first, second }) => first !== second);
    expect(differing.map(({ outdoorF, wetBulbF }) => `${outdoorF}/${wetBulbF}`)).toEqual([
      '55/70',
      '55/76',
      '80/70',
      '100/70',
      '100/72',
      '100/74',
      '100/76',
    ]);
    for (const { first, second } of differing) expect(Math.abs(Number(first) - Number(second))).toBe(1);
  });
});

test('linear between its figures, nothing off it or beside a dash', () => {
  const target = (wetBulbF: number, outdoorF: number) => targetSuperheat(kelvin(wetBulbF), kelvin(outdoorF));
  expect((target(65, 92.5) ?? 0) * 1.8).toBeCloseTo((9 + 13 + 6 + 10) / 4, 4);
  expect((target(76, 115) ?? 0) * 1.8).toBeCloseTo(23, 4);
  for (const [wetBulbF, outdoorF] of [
    [63, 94],
    [76.2, 90],
    [49.8, 60],
    [64, 54.8],
    [64, 115.2],
    [57, 72.5],
  ])
    expect(target(wetBulbF, outdoorF) === undefined, `${wetBulbF}/${outdoorF}`).toBe(wetBulbF !== 57);
});

test('reproduces what is said of the rule of thumb beside the table', () => {
  const errors = figures.map(
    ({ wetBulbF, outdoorF, first }) => ruleOfThumbSuperheat(kelvin(wetBulbF), kelvin(outdoorF)) * 1.8 - Number(first),
  );
  const mean = errors.reduce((sum, error) => sum + error, 0) / errors.length;
  const rms = Math.sqrt(errors.reduce((sum, error) => sum + error * error, 0) / errors.length);
  expect(mean).toBeCloseTo(-0.45, 2);
  expect(rms).toBeCloseTo(1.62, 2);
  expect(Math.min(...errors)).toBeCloseTo(-6.5, 6);
  expect(Math.max(...errors)).toBeCloseTo(3, 6);
  expect(ruleOfThumbSuperheat(kelvin(64), kelvin(96)) * 1.8).toBeCloseTo(8, 9);
});
