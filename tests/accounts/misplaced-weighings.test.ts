import { describe, expect, test } from 'vitest';
import { aCylinder, aWeighing, type DraftCylinder, ledgerOf } from './cylinder-drafts.ts';

/** Of the one 12 → 10 kg is missing in its own list, and stands in that of the other, which weighed 14 kg before and after. */
const moved = aWeighing('2026-01-15', 12, 10);
const one: DraftCylinder = [
  aCylinder({ cylinderId: 'one' }),
  [aWeighing('2026-01-10', 15, 12), aWeighing('2026-01-20', 10, 9)],
];
const other: DraftCylinder = [
  aCylinder({ cylinderId: 'other' }),
  [aWeighing('2026-01-12', 15, 14), moved, aWeighing('2026-01-18', 14, 13)],
];

const told = (cylinders: readonly DraftCylinder[]) => {
  const { cylinders: lines, total, apart } = ledgerOf(cylinders);
  return {
    apart: apart.map(({ id, reason }) => `${id} ${reason}`),
    total: Math.round(1000 * total.chargedKg),
    unexplained: Math.round(1000 * total.unexplainedKg),
    lines: lines.map(({ cylinder, balance, remarks }) => [
      cylinder.cylinderId,
      Math.round(1000 * balance.chargedKg),
      Math.round(1000 * balance.unexplainedKg),
      ...remarks.map((remark) =>
        remark.id === 'misplaced' ? `${remark.weighing.weighingId} of ${remark.writtenFor}` : remark.id,
      ),
    ]),
  };
};

describe('a weighing that was written for another cylinder', () => {
  const expected = {
    apart: [],
    total: 7000,
    unexplained: 0,
    lines: [
      ['one', 6000, 0, 'w 2026-01-15 of other'],
      ['other', 2000, 0],
    ],
  };

  test('is moved to the one that it goes on from, whichever comes first', () => {
    // 3 + 2 + 1 of the one, 1 + 1 of the other.
    expect(told([one, other])).toEqual({ ...expected, total: 8000 });
    expect(told([other, one])).toEqual({ ...expected, total: 8000 });
  });

  test.each([
    [
      'another refrigerant',
      aCylinder({ cylinderId: 'one', refrigerant: 'R-32', writtenRefrigerant: 'R-32' }),
      '2026-01-20',
      10,
    ],
    ['other weights afterwards', aCylinder({ cylinderId: 'one' }), '2026-01-20', 9.5],
    ['a gap that was over before', aCylinder({ cylinderId: 'one' }), '2026-01-14', 10],
  ])('is moved nowhere where there is %s, and kept apart', (_, cylinder, on, startKg) => {
    const { lines, apart } = told([[cylinder, [aWeighing('2026-01-10', 15, 12), aWeighing(on, startKg, 9)]], other]);
    expect(lines.flat().filter((cell) => String(cell).includes(' of '))).toEqual([]);
    // 1 + 1 are booked to the one that it was written for, which goes on as if it had not been.
    expect(lines[1].slice(1)).toEqual([2000, 0]);
    expect(apart).toEqual(['w 2026-01-15 not-this-cylinder']);
  });
});
