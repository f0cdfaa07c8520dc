import { describe, expect, test } from 'vitest';
import type { CylinderAccount } from '../../src/accounts/cylinder-account.ts';
import { dayOf } from '../../src/numerics/calendar-day.ts';
import { accountOf, aCylinder, aWeighing } from './cylinder-drafts.ts';

const outs = ({ walk }: CylinderAccount) => walk.weighings.map(({ outKg }) => Math.round(1000 * outKg));
const gaps = ({ walk }: CylinderAccount) =>
  walk.gaps.filter(({ isBeyond }) => isBeyond).map(({ kg }) => Math.round(1000 * kg));
const lastGrams = ({ walk }: CylinderAccount) => Math.round(1000 * walk.lastKg);

describe('what the scale shows', () => {
  test('cylinder and content', () => {
    const account = accountOf(aCylinder(), [aWeighing('2026-01-10', 15, 12), aWeighing('2026-01-11', 12, 11)]);
    expect([outs(account), gaps(account), lastGrams(account)]).toEqual([[3000, 1000], [], 6000]);
  });

  test('neither, where it was set to 0: only the difference counts', () => {
    const account = accountOf(aCylinder(), [
      aWeighing('2026-01-10', 0, -2.5),
      aWeighing('2026-01-11', 12.5, 11),
      aWeighing('2026-01-12', 0, -1),
      aWeighing('2026-01-13', 10, 9.5),
    ]);
    expect([outs(account), gaps(account), lastGrams(account)]).toEqual([[2500, 1500, 1000, 500], [], 4500]);
    expect(account.remarks).toEqual([]);
  });

  test('what went missing shows at the next weighing that is not set to 0', () => {
    const account = accountOf(aCylinder(), [aWeighing('2026-01-10', 0, -2.5), aWeighing('2026-01-11', 11.5, 11)]);
    expect([outs(account), gaps(account), lastGrams(account)]).toEqual([[2500, 500], [1000], 6000]);
  });

  test('the content alone, where the empty weight was taken off', () => {
    const account = accountOf(aCylinder(), [
      aWeighing('2026-01-10', 10, 7),
      aWeighing('2026-01-11', 12, 11),
      aWeighing('2026-01-12', 6, 5),
    ]);
    expect([outs(account), gaps(account), lastGrams(account)]).toEqual([[3000, 1000, 1000], [], 5000]);
  });

  test('without the empty weight of the cylinder the first weighing tells of no loss', () => {
    const account = accountOf(aCylinder({ tareKg: null }), [
      aWeighing('2026-01-10', 14, 12),
      aWeighing('2026-01-11', 11, 10),
    ]);
    expect([outs(account), gaps(account), lastGrams(account)]).toEqual([[2000, 1000], [1000], 6000]);
  });
});

describe('a mistyped weight', () => {
  test('is mended where another figure of the mass and the weighings around agree', () => {
    // 15.00 → 12.00, written 21.00; the record has 3 kg; the next begins with 12.00.
    const account = accountOf(aCylinder(), [
      aWeighing('2026-01-10', 15, 21, { direction: 'in', otherKg: 3, otherFrom: 'record' }),
      aWeighing('2026-01-11', 12, 11),
    ]);
    expect([outs(account), gaps(account), lastGrams(account)]).toEqual([[3000, 1000], [], 6000]);
    expect(account.remarks).toMatchObject([{ id: 'mistyped', which: 'end', kg: 12, by: 'record' }]);
    expect(account.apart).toEqual([]);
  });

  test('so is the one before', () => {
    // 12.00 → 11.00, written 21.00 → 11.00; the scale has 1 kg.
    const account = accountOf(aCylinder(), [
      aWeighing('2026-01-10', 15, 12),
      aWeighing('2026-01-11', 21, 11, { otherKg: 1, otherFrom: 'series' }),
      aWeighing('2026-01-12', 11, 10),
    ]);
    expect([outs(account), gaps(account), lastGrams(account)]).toEqual([[3000, 1000, 1000], [], 5000]);
    expect(account.remarks).toMatchObject([{ id: 'mistyped', which: 'start', kg: 12, by: 'series' }]);
  });

  test('is left as it stands where the weighings around agree with it, whatever another figure says', () => {
    const account = accountOf(aCylinder(), [
      aWeighing('2026-01-10', 15, 12, { otherKg: 2, otherFrom: 'record' }),
      aWeighing('2026-01-11', 12, 11),
    ]);
    expect([outs(account), gaps(account), account.remarks]).toEqual([[3000, 1000], [], []]);
  });

  test('without another figure stays, and what is missing next is said to look like it', () => {
    // 15.00 → 12.53, written 12.35: 0.18 kg too much at the next.
    const account = accountOf(aCylinder(), [aWeighing('2026-01-10', 15, 12.35), aWeighing('2026-01-11', 12.53, 11)]);
    expect([outs(account), gaps(account)]).toEqual([[2650, 1530], [-180]]);
    expect(account.remarks).toMatchObject([{ id: 'too-much', slip: { which: 'before', how: 'digits-swapped' } }]);
  });

  test('a weight that another figure confirms is no slip', () => {
    const account = accountOf(aCylinder(), [
      aWeighing('2026-01-10', 15, 12.35, { otherKg: 2.65, otherFrom: 'record' }),
      aWeighing('2026-01-11', 12.53, 11, { otherKg: 1.53, otherFrom: 'record' }),
    ]);
    expect(account.remarks).toMatchObject([{ id: 'too-much', slip: null }]);
  });
});

describe('a cylinder that holds what it cannot', () => {
  const recovery = aCylinder({ kind: 'recovery', netKg: 0, capacityKg: 10 });

  test.each([
    [15, []],
    [15.01, []],
    [15.05, ['overfilled']],
  ])('recovered to %d kg, of which 15 may be', (endKg, expected) => {
    const account = accountOf(recovery, [aWeighing('2026-01-10', 5, 9), aWeighing('2026-01-12', 9, endKg)]);
    expect(account.remarks.map(({ id }) => id)).toEqual(expected);
  });

  test('says how much, and when', () => {
    const account = accountOf(recovery, [aWeighing('2026-01-10', 5, 16), aWeighing('2026-01-12', 16, 10)]);
    expect(account.remarks).toMatchObject([{ id: 'overfilled', kg: 11, capacityKg: 10, day: dayOf('2026-01-10') }]);
  });

  test('came fuller than it may be: no recovery did that', () => {
    const account = accountOf(aCylinder({ capacityKg: 9 }), [aWeighing('2026-01-10', 15, 14.5)]);
    expect(account.remarks).toEqual([]);
  });

  test.each([
    [2.05, []],
    [2.2, ['negative']],
  ])('%d kg out of 2 kg, weighed without its own weight', (outKg, expected) => {
    const account = accountOf(aCylinder({ netKg: 2, tareKg: null }), [aWeighing('2026-01-10', 7, 7 - outKg)]);
    expect(account.remarks.map(({ id }) => id)).toEqual(expected);
  });

  test('another refrigerant than its own', () => {
    const account = accountOf(aCylinder(), [aWeighing('2026-01-10', 15, 14, { writtenRefrigerant: 'R-32' })]);
    expect(account.remarks).toMatchObject([{ id: 'other-refrigerant', refrigerant: 'R-32' }]);
    const same = accountOf(aCylinder(), [aWeighing('2026-01-10', 15, 14, { writtenRefrigerant: 'r410a' })]);
    expect(same.remarks).toEqual([]);
  });
});

test('what goes the other way by no more than two steps of the scale is no error', () => {
  const way = (endKg: number) =>
    accountOf(aCylinder(), [aWeighing('2026-01-10', 15, endKg, { direction: 'in' })]).apart.map(({ reason }) => reason);
  expect(way(15.01)).toEqual([]);
  expect(way(15.03)).toEqual(['wrong-way']);
});
