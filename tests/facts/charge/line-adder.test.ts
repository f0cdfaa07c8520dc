import { describe, expect, test } from 'vitest';
import { computedAdder, refrigerantRatio, sizeRatio } from '../../../src/facts/charge/line-adder.ts';
import { referenceCells } from '../../reference-rows.ts';

const ounceKg = 0.028349523125;
const ouncesPerFoot = (kgPerM: number) => (kgPerM / ounceKg) * 0.3048;
const mm = (inches: number) => inches * 25.4;

describe('reproduces the line-set rows, liquid at 100 °F', () => {
  const rows = referenceCells('line-set-rows').filter(
    ({ basis }) => basis.includes('100 °F') && !basis.includes('vapour'),
  );

  test('there are some of nine refrigerants', () => {
    expect(new Set(rows.map(({ refrigerant }) => refrigerant)).size).toBeGreaterThanOrEqual(9);
  });

  test.each(rows.map((row) => [`${row.refrigerant}, ${row.outer_diameter_in} in`, row] as const))('%s', (_, row) => {
    const line = { liquid_line_od_mm: mm(Number(row.outer_diameter_in)) };
    const found = ouncesPerFoot(computedAdder(row.refrigerant, line)?.liquidKgPerM ?? Number.NaN);
    expect(Math.abs(found - Number(row.mass_oz_per_ft))).toBeLessThan(Number(row.tolerance_oz_per_ft) + 0.001);
  });
});

test('the suction vapour of R-410A is the published 0.093 oz/ft in 3/4 in and 0.124 in 7/8 in', () => {
  const vapour = (inches: number) => {
    const adder = computedAdder('R-410A', { liquid_line_od_mm: 9.52, suction_line_od_mm: mm(inches) });
    return ouncesPerFoot((adder?.lineKgPerM ?? 0) - (adder?.liquidKgPerM ?? 0));
  };
  expect(vapour(3 / 4)).toBeCloseTo(0.093, 3);
  expect(vapour(7 / 8)).toBeCloseTo(0.124, 3);
});

test('a small ductless system on a line somewhat longer than covered wants about 5.6 oz more: common practice, no source', () => {
  // 25 ft beyond, 1/4 in liquid and 1/2 in suction line, R-410A.
  const adder = computedAdder('R-410A', { liquid_line_od_mm: 6.35, suction_line_od_mm: 12.7 });
  const ounces = 25 * ouncesPerFoot(adder?.lineKgPerM ?? 0);
  expect(ounces).toBeGreaterThan(5.2);
  expect(ounces).toBeLessThan(6);
});

test('another size goes by the area of the bore, another refrigerant by the density of the liquid', () => {
  // 0.311² to 0.190², and 903.9 to 989.2 kg/m³.
  expect(sizeRatio(9.52, 6.35)).toBeCloseTo((0.311 / 0.19) ** 2, 6);
  expect(refrigerantRatio('R-32', 'R-410A')).toBeCloseTo(903.9 / 989.2, 3);
  expect([sizeRatio(9.52, 7), refrigerantRatio('R-999', 'R-410A')]).toEqual([Number.NaN, Number.NaN]);
});

test('without a known refrigerant or tube there is none', () => {
  expect(computedAdder('R-999', { liquid_line_od_mm: 9.52 })).toBeUndefined();
  expect(computedAdder('R-410A', { liquid_line_od_mm: 11 })).toBeUndefined();
  expect(computedAdder('R-410A', {})).toBeUndefined();
});
