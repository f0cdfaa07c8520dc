import { expect, test } from 'vitest';
import { chargeFault } from '../../src/physics/index.ts';
import { referenceCells } from '../reference-rows.ts';

test.each(
  referenceCells('nist-tn-1848').map((row) => [`${row.mode}, ${row.deviation_ratio} of the charge`, row] as const),
)('reproduces NIST TN 1848 as coded: %s', (_, row) => {
  const found = chargeFault({
    mode: row.mode as 'cooling' | 'heating',
    deviationRatio: Number(row.deviation_ratio),
    indoorK: Number(row.indoor_c) + 273.15,
    outdoorK: Number(row.outdoor_c) + 273.15,
  });
  for (const name of ['capacity', 'power', 'cop'] as const)
    expect(Math.abs(found[`${name}Ratio`] - Number(row[`${name}_ratio`]))).toBeLessThan(Number(row.tolerance));
});

const rated = { mode: 'cooling', indoorK: 299.82, outdoorK: 308.15 } as const;

test('the right charge changes nothing', () => {
  expect(chargeFault({ ...rated, deviationRatio: 0 })).toEqual({ capacityRatio: 1, powerRatio: 1, copRatio: 1 });
});

test.each([[-0.301], [0.301], [Number.NaN]])('refuses a deviation of %d', (deviationRatio) => {
  expect(() => chargeFault({ ...rated, deviationRatio })).toThrow('deviation of the charge as a ratio');
});

test('refuses temperatures in the wrong unit', () => {
  expect(() => chargeFault({ ...rated, deviationRatio: 0.1, indoorK: 26.7 })).toThrow('dry bulb');
});
