import { expect, test } from 'vitest';
import { funnelLimits } from '../../../src/fleet/statistics/funnel-limits.ts';
import { overDispersion } from '../../../src/fleet/statistics/over-dispersion.ts';
import { fitShareSpread, shrunkenShare, type Tally } from '../../../src/fleet/statistics/shrunken-shares.ts';
import { referenceRows } from '../../reference-rows.ts';

const hospitals = referenceRows('openbugs-surgical');
const tallies: Tally[] = hospitals.map(({ operations, deaths }) => ({ found: deaths, jobs: operations }));
const over = 208 / 2814;

test('reproduces the beta distribution of the surgical example, by greatest likelihood', () => {
  const spread = fitShareSpread(tallies);
  expect(spread?.alpha).toBeCloseTo(8.253495, 4);
  expect(spread?.beta).toBeCloseTo(99.636927, 3);
});

test.each(hospitals)(
  'reproduces the shrunken share of $deaths of $operations, and the published one within 0.003',
  (row) => {
    const spread = fitShareSpread(tallies) ?? { alpha: Number.NaN, beta: Number.NaN };
    const { share, low, high } = shrunkenShare({ found: row.deaths, jobs: row.operations }, spread);
    expect(share).toBeCloseTo(row.shrunken_share, 4);
    expect(Math.abs(share - row.published_share)).toBeLessThan(0.003);
    expect(low).toBeLessThan(share);
    expect(high).toBeGreaterThan(share);
  },
);

test.each(referenceRows('openbugs-surgical', 'limits.csv'))(
  'reproduces the exact limits for $operations operations',
  (row) => {
    const limits = funnelLimits(over, row.operations);
    for (const name of ['low95', 'high95', 'low998', 'high998'] as const)
      expect(Math.abs(limits[name] - row[name])).toBeLessThanOrEqual(0.00005);
  },
);

test('only hospital H lies beyond the limits that chance keeps to 998 times of 1,000', () => {
  const beyond = tallies.filter(({ found, jobs }) => {
    const { low998, high998 } = funnelLimits(over, jobs);
    return found / jobs < low998 || found / jobs > high998;
  });
  expect(beyond).toEqual([{ found: 31, jobs: 215 }]);
});

test('reproduces scores and over-dispersion of the surgical example, none drawn in', () => {
  const errors = tallies.map(({ jobs }) => Math.sqrt((over * (1 - over)) / jobs));
  const scores = tallies.map(({ found, jobs }, unit) => (found / jobs - over) / errors[unit]);
  for (const [unit, score] of scores.entries()) expect(score).toBeCloseTo(hospitals[unit].standard_score, 3);
  const { ratio, variance } = overDispersion(scores, errors, 0);
  expect(ratio).toBeCloseTo(3.21297, 5);
  expect(variance).toBeCloseTo(0.00077763, 8);
});

test('reproduces over-dispersion with the outermost scores drawn in, Spiegelhalter 2005', () => {
  const units = referenceRows('spiegelhalter-2005');
  const errors = units.map(({ expected }) => 1 / Math.sqrt(expected));
  const scores = units.map(({ observed, expected }) => Math.log(observed / expected) * Math.sqrt(expected));
  for (const [unit, score] of scores.entries()) expect(score).toBeCloseTo(units[unit].standard_score, 5);
  const { ratio, variance } = overDispersion(scores, errors);
  expect(ratio).toBeCloseTo(2.149053, 6);
  expect(variance).toBeCloseTo(0.01211849, 8);
});

test('units that differ no more than chance makes them have no variance of their own', () => {
  expect(overDispersion([0.1, -0.2, 0.15, -0.05], [0.1, 0.1, 0.2, 0.1]).variance).toBe(0);
  expect(overDispersion([2.2], [0.1])).toEqual({ ratio: 1, variance: 0 });
});
