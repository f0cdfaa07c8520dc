import { describe, expect, test } from 'vitest';
import { type RiseLadder, riseLadder, riseLevelAt } from '../../../src/facts/rise/rise-ladder.ts';
import { isolatedRise, type RiseOptions } from './isolated-rise.ts';

const line = (sinceS: number) => 30 + 0.1 * sinceS;

function ladderOf(at: (sinceS: number) => number, options: RiseOptions, askedS?: number): RiseLadder {
  const series = isolatedRise(at, options);
  return riseLadder(series, 0, series.elapsedS.length - 1, 0, askedS);
}

describe('riseLadder', () => {
  test('has the published times as far as the isolation lasted, and its end', () => {
    const times = (testS: number) => ladderOf(line, { testS }).map(([rung]) => rung);
    expect(times(59)).toEqual([58]);
    expect(times(600)).toEqual([60, 120, 180, 300, 600]);
    expect(times(1000)).toEqual([60, 120, 180, 300, 600, 900, 1000]);
    expect(times(8000)).toEqual([60, 120, 180, 300, 600, 900, 1200, 1800, 3600, 7200, 8000]);
  });

  test('has the length that the job asks for, once, where the isolation lasted so long', () => {
    const times = (askedS: number) => ladderOf(line, { testS: 1000 }, askedS).map(([rung]) => rung);
    expect(times(420)).toEqual([60, 120, 180, 300, 420, 600, 900, 1000]);
    expect(times(600)).toEqual([60, 120, 180, 300, 600, 900, 1000]);
    expect(times(1200)).toEqual([60, 120, 180, 300, 600, 900, 1000]);
  });

  test('gives the level around each time', () => {
    for (const [rung, pa] of ladderOf(line, { testS: 1000 })) {
      if (pa === null) throw new Error(`${rung} s: no level`);
      // At the very end only readings before it exist: the middle of the last five is 4 s earlier.
      const away = rung === 1000 ? 0.4 : 0;
      expect(Math.abs(pa - line(rung))).toBeLessThanOrEqual(away + 0.2 + 1e-9);
    }
  });

  test('of a coarse log gives the one reading next to the time', () => {
    const ladder = ladderOf(line, { testS: 900, intervalS: 60 });
    for (const [rung, pa] of ladder) expect(pa).toBeCloseTo(line(rung), 9);
  });

  test('counts from valve-off, and one wild reading moves it by a step between neighbours at most', () => {
    const { elapsedS, vacuumPa } = isolatedRise(line, { testS: 700 });
    const shifted = { gauge: null, elapsedS: elapsedS.map((at) => at + 5000), vacuumPa: vacuumPa.slice() };
    shifted.vacuumPa[150] = 5000;
    const ladder = riseLadder(shifted, 0, 350, 5000, undefined);
    const plain = riseLadder({ gauge: null, elapsedS, vacuumPa }, 0, 350, 0, undefined);
    expect(ladder.map(([rung]) => rung)).toEqual(plain.map(([rung]) => rung));
    for (const [index, [, pa]] of ladder.entries())
      expect(Math.abs(Number(pa) - Number(plain[index][1]))).toBeLessThanOrEqual(0.2 + 1e-9);
  });

  test('knows no level within a gap', () => {
    const { elapsedS, vacuumPa } = isolatedRise(line, { testS: 1800 });
    const kept = [...elapsedS.keys()].filter((index) => elapsedS[index] < 400 || elapsedS[index] > 1300);
    const gapped = {
      gauge: null,
      elapsedS: Float64Array.from(kept, (index) => elapsedS[index]),
      vacuumPa: Float64Array.from(kept, (index) => vacuumPa[index]),
    };
    const levels = new Map(riseLadder(gapped, 0, kept.length - 1, 0, undefined));
    expect([600, 900, 1200].map((rung) => levels.get(rung))).toEqual([null, null, null]);
    expect(levels.get(300)).toBeCloseTo(line(300), 0);
    expect(levels.get(1800)).toBeGreaterThan(200);
  });
});

describe('riseLevelAt', () => {
  const ladder = JSON.stringify([
    [60, 40],
    [120, 44],
    [300, 50],
  ]);

  test.each([
    [0, 33],
    [30, 36.5],
    [60, 40],
    [90, 42],
    [300, 50],
  ])('after %d s: %d Pa', (afterS, pa) => {
    expect(riseLevelAt(ladder, afterS, 33)).toBeCloseTo(pa, 9);
  });

  test('nothing within a gap or beside it', () => {
    const gapped = '[[60,40],[300,null],[600,60],[900,70]]';
    expect([100, 300, 400].map((afterS) => riseLevelAt(gapped, afterS, 33))).toEqual([undefined, undefined, undefined]);
    expect(riseLevelAt(gapped, 750, 33)).toBeCloseTo(65, 9);
  });

  test('nothing beyond its end', () => {
    expect(riseLevelAt(ladder, 300.1, 33)).toBeUndefined();
    expect(riseLevelAt('[]', 10, 33)).toBeUndefined();
  });

  test('of a slackening rise it lies a little below the curve between rungs, and meets it at them', () => {
    const at = (s: number) => 30 - 40 * Math.expm1(-s / 300);
    const json = JSON.stringify(ladderOf(at, { testS: 1200, intervalS: 1 }));
    for (const afterS of [60, 120, 300, 600, 900]) expect(riseLevelAt(json, afterS, 30)).toBeCloseTo(at(afterS), 1);
    for (const afterS of [240, 450, 750]) {
      const level = riseLevelAt(json, afterS, 30) ?? Number.NaN;
      expect(level).toBeLessThan(at(afterS));
      expect(level).toBeGreaterThan(at(afterS) - 2);
    }
  });
});
