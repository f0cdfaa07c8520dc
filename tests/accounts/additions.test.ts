import { describe, expect, test } from 'vitest';
import { leakAdditions } from '../../src/accounts/additions.ts';
import { added, leakShape } from './appliance-drafts.ts';

describe('additions for one leak are one', () => {
  test('over all of their days, from the last addition before the first of them', () => {
    const leaks = leakAdditions(
      [added(10, 5, null, 'install'), added(50, 1, 'L'), added(80, 2, 'L'), added(95, 4, 'L')],
      null,
    );
    expect(leaks.map(leakShape)).toEqual([{ day: 50, lastDay: 95, kg: 7, leakId: 'L', previousDay: 10 }]);
    expect(leaks[0].parts).toMatchObject([
      { day: 50, kg: 1 },
      { day: 80, kg: 2 },
      { day: 95, kg: 4 },
    ]);
    expect(leaks[0].sources).toHaveLength(3);
  });

  test('though another leak is topped up between them', () => {
    const leaks = leakAdditions([added(50, 1, 'L'), added(60, 2, 'M'), added(80, 4, 'L')], 0);
    expect(leaks.map(leakShape)).toEqual([
      { day: 50, lastDay: 80, kg: 5, leakId: 'L', previousDay: 0 },
      { day: 60, lastDay: 60, kg: 2, leakId: 'M', previousDay: 50 },
    ]);
  });

  test('those that name none are one each, a day between them or not', () => {
    expect(leakAdditions([added(50, 1), added(51, 2)], 0).map(leakShape)).toEqual([
      { day: 50, lastDay: 50, kg: 1, leakId: null, previousDay: 0 },
      { day: 51, lastDay: 51, kg: 2, leakId: null, previousDay: 50 },
    ]);
  });
});

describe('additions of one day are one', () => {
  test('so that no time of 0 days comes about', () => {
    const leaks = leakAdditions([added(50, 1), added(50, 2), added(50, 4, 'L')], 20);
    expect(leaks.map(leakShape)).toEqual([{ day: 50, lastDay: 50, kg: 7, leakId: 'L', previousDay: 20 }]);
    expect(leaks[0].parts).toMatchObject([{ day: 50, kg: 7 }]);
  });

  test('and the day that an appliance was filled is none before itself', () => {
    expect(leakAdditions([added(50, 1)], 50).map(leakShape)).toEqual([
      { day: 50, lastDay: 50, kg: 1, leakId: null, previousDay: null },
    ]);
  });
});

describe('what tells of no leak', () => {
  test.each(['install', 'retrofit'] as const)('an addition for %s counts as one, and not as a leak', (purpose) => {
    const leaks = leakAdditions([added(10, 3), added(40, 20, null, purpose), added(60, 1)], null);
    expect(leaks.map(leakShape)).toEqual([
      { day: 10, lastDay: 10, kg: 3, leakId: null, previousDay: null },
      { day: 60, lastDay: 60, kg: 1, leakId: null, previousDay: 40 },
    ]);
  });

  test('what was taken out, or came to nothing, is no addition at all', () => {
    const leaks = leakAdditions([added(40, -2), added(45, 0), added(60, 1)], 10);
    expect(leaks.map(leakShape)).toEqual([{ day: 60, lastDay: 60, kg: 1, leakId: null, previousDay: 10 }]);
  });

  test('an appliance that nothing was put into has none', () => {
    expect(leakAdditions([], 0)).toEqual([]);
    expect(leakAdditions([added(5, 1, null, 'install')], 0)).toEqual([]);
  });
});

describe('seasonal variance', () => {
  const season = (removedOn: number, removedKg: number, backOn: number, backKg: number) =>
    leakAdditions([added(removedOn, -removedKg, null, 'seasonal'), added(backOn, backKg, null, 'seasonal')], 0);

  test.each([
    [365, []],
    [366, [4]],
  ])('what is put back %i days after it was taken out', (days, leaked) => {
    expect(season(100, 4, 100 + days, 4).map(({ kg }) => kg)).toEqual(leaked);
  });

  test('only as much as was taken out: the rest leaked', () => {
    expect(season(100, 4, 200, 5.5).map(({ kg }) => kg)).toEqual([1.5]);
    expect(season(100, 4, 200, 4).map(({ kg }) => kg)).toEqual([]);
    expect(season(100, 4, 200, 3).map(({ kg }) => kg)).toEqual([]);
  });

  test('each removal is used up once', () => {
    const leaks = leakAdditions(
      [
        added(100, -4, null, 'seasonal'),
        added(150, 3, null, 'seasonal'),
        added(160, 3, null, 'seasonal'),
        added(170, 1, null, 'seasonal'),
      ],
      0,
    );
    // 3 of 4; 1 of 4 and 2 beyond; 1 beyond.
    expect(leaks.map(({ day, kg }) => [day, kg])).toEqual([
      [160, 2],
      [170, 1],
    ]);
  });

  test('of two removals the one that is too long ago does not count', () => {
    const leaks = leakAdditions(
      [added(100, -4, null, 'seasonal'), added(300, -2, null, 'seasonal'), added(466, 5, null, 'seasonal')],
      0,
    );
    expect(leaks.map(({ kg }) => kg)).toEqual([3]);
  });

  test('what was put back before it was taken out leaked', () => {
    expect(season(200, 4, 100, 4).map(({ day, kg }) => [day, kg])).toEqual([[100, 4]]);
  });

  test('what was recovered for another reason is no season', () => {
    const leaks = leakAdditions([added(100, -4, null, 'leak'), added(200, 4, null, 'seasonal')], 0);
    expect(leaks.map(({ kg }) => kg)).toEqual([4]);
  });

  test('putting it back is an addition to what comes after', () => {
    const leaks = leakAdditions([added(100, -4, null, 'seasonal'), added(200, 4, null, 'seasonal'), added(230, 1)], 0);
    expect(leaks.map(leakShape)).toEqual([{ day: 230, lastDay: 230, kg: 1, leakId: null, previousDay: 200 }]);
  });
});
