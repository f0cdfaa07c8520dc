import { describe, expect, test } from 'vitest';
import { annualisedRate, rollingRate } from '../../src/accounts/leak-rate.ts';
import { referenceCells } from '../reference-rows.ts';

const rows = referenceCells('leak-rate-examples');

describe('leak rates', () => {
  test('have the five rows to be held against', () => {
    expect(rows.map(({ method }) => method)).toEqual([
      'annualising',
      'annualising',
      'annualising',
      'annualising',
      'rolling',
    ]);
  });

  test.each(rows)(
    'reproduce $rate_percent %, leak-rate-examples ($method, $added_lb lb of $full_charge_lb lb)',
    (row) => {
      // Pounds over pounds: the unit goes out.
      const added = row.added_lb.split(' ').reduce((sum, part) => sum + Number(part), 0);
      const charge = Number(row.full_charge_lb);
      const rate =
        row.method === 'rolling' ? rollingRate(added, charge) : annualisedRate(added, charge, Number(row.days));
      expect(Math.abs(100 * rate - Number(row.rate_percent))).toBeLessThanOrEqual(Number(row.tolerance_percent));
    },
  );

  test('the annualising one stretches to a year and never shrinks from a longer time', () => {
    // 365/364 of a tenth; a tenth; a tenth.
    expect(annualisedRate(10, 100, 364)).toBeCloseTo(36.5 / 364, 14);
    expect(annualisedRate(10, 100, 365)).toBeCloseTo(0.1, 14);
    expect(annualisedRate(10, 100, 366)).toBeCloseTo(0.1, 14);
    expect(annualisedRate(10, 100, 1)).toBeCloseTo(36.5, 12);
    expect(annualisedRate(0, 100, 30)).toBe(0);
    expect(rollingRate(0, 100)).toBe(0);
  });

  test.each([
    [() => annualisedRate(1, 0, 10), 'full charge out of range: must be above 0, received 0'],
    [() => annualisedRate(1, -5, 10), 'full charge out of range: must be above 0, received -5'],
    [() => annualisedRate(-1, 100, 10), 'added mass out of range: must be 0 or more, received -1'],
    [
      () => annualisedRate(1, 100, 0),
      'days since refrigerant was added last out of range: must be above 0, received 0',
    ],
    [
      () => annualisedRate(1, 100, -3),
      'days since refrigerant was added last out of range: must be above 0, received -3',
    ],
    [() => annualisedRate(Number.NaN, 100, 10), 'added mass out of range: must be 0 or more, received NaN'],
    [
      () => annualisedRate(1, 100, Number.NaN),
      'days since refrigerant was added last out of range: must be above 0, received NaN',
    ],
    [() => rollingRate(1, 0), 'full charge out of range: must be above 0, received 0'],
    [() => rollingRate(-1, 100), 'added mass out of range: must be 0 or more, received -1'],
    [() => rollingRate(1, Number.NaN), 'full charge out of range: must be above 0, received NaN'],
  ])('refuse what is no mass, charge or time: %s', (work, text) => {
    expect(work).toThrow(text);
  });
});
