import { expect, test } from 'vitest';
import { shrunkenRatios } from '../../../src/fleet/statistics/shrunken-ratios.ts';
import { referenceRows } from '../../reference-rows.ts';

test('reproduces ten counties, Marshall 1991, global', () => {
  const rows = referenceRows('marshall-1991');
  expect(rows).toHaveLength(78);
  const rates = shrunkenRatios(
    rows.map((row) => row.homicides),
    rows.map((row) => row.inhabitants),
  );
  for (let county = 0; county < 10; county += 1)
    expect(Math.abs(rates[county] / rows[county].shrunken_rate - 1)).toBeLessThan(1e-8);
});

test('units that differ no more than chance makes them all have the ratio over all', () => {
  expect([...shrunkenRatios([10, 11, 9], [10, 10, 10])]).toEqual([1, 1, 1]);
});
