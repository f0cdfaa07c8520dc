import { describe, expect, test } from 'vitest';
import type { RunColumn } from '../../src/records/run-columns.ts';
import { meanOf } from '../../src/traces/run-series.ts';
import { runningStretches } from '../../src/traces/running-stretches.ts';

type Course = (atS: number) => number;

/** Stretches as times [s]. */
function found(
  courses: Partial<Record<RunColumn | 'mode', Course>>,
  { lengthS = 1200, intervalS = 5, sidesTell = true, without = (_: number): boolean => false } = {},
) {
  const all = Array.from({ length: Math.floor(lengthS / intervalS) + 1 }, (_, row) => row * intervalS);
  const elapsedS = Float64Array.from(all.filter((atS) => !without(atS)));
  const { mode, ...rest } = courses;
  const columns = Object.fromEntries(Object.entries(rest).map(([name, course]) => [name, elapsedS.map(course)]));
  return runningStretches({ elapsedS, columns, mode: mode && elapsedS.map(mode) }, sidesTell)?.map(
    ({ fromRow, toRow }) => [elapsedS[fromRow], elapsedS[toRow]],
  );
}
const between = (fromS: number, toS: number, inside: number, outside: number) => (atS: number) =>
  atS >= fromS && atS <= toS ? inside : outside;

describe('when the compressor ran', () => {
  test('by its power: more than a fan takes', () => {
    expect(found({ compressor_w: between(100, 900, 2000, 0) })).toEqual([[100, 900]]);
    expect(found({ compressor_w: between(100, 900, 2000, 200) })).toEqual([[100, 900]]);
    expect(found({ compressor_w: () => 60 })).toEqual([]);
  });

  test('by what the source says, where it says anything of it', () => {
    const mode = between(100, 900, 1, 0);
    expect(found({ mode })).toEqual([[100, 900]]);
    expect(found({ mode: () => 0 })).toBeUndefined();
    // Power goes before.
    expect(found({ mode, compressor_w: between(200, 800, 2000, 0) })).toEqual([[200, 800]]);
  });

  test('by sides that are apart, swapped or not', () => {
    const [high, low] = [between(100, 900, 2.4e6, 1.6e6), between(100, 900, 0.9e6, 1.6e6)];
    expect(found({ suction_pa: low, liquid_pa: high })).toEqual([[100, 900]]);
    expect(found({ suction_pa: high, liquid_pa: low })).toEqual([[100, 900]]);
    expect(found({ suction_pa: low })).toBeUndefined();
  });

  test('sides do not tell where the metering device sits outdoors', () => {
    const columns = { suction_pa: () => 0.9e6, liquid_pa: () => 0.95e6 };
    expect(found(columns)).toEqual([]);
    expect(found(columns, { sidesTell: false })).toBeUndefined();
    expect(found({ ...columns, compressor_w: () => 2000 }, { sidesTell: false })).toEqual([[0, 1200]]);
  });

  test('a reading or two that were missed are no stop; a stop is one', () => {
    const stopped = (fromS: number, toS: number) => ({ compressor_w: between(fromS, toS, 0, 2000) });
    expect(found(stopped(500, 530))).toEqual([[0, 1200]]);
    expect(found(stopped(500, 600))).toEqual([
      [0, 495],
      [605, 1200],
    ]);
  });

  test('of a log by the minute it is as of one by seconds', () => {
    expect(found({ compressor_w: between(120, 1080, 2000, 0) }, { intervalS: 60 })).toEqual([[120, 1080]]);
    expect(found({ compressor_w: between(600, 600, 0, 2000) }, { intervalS: 60 })).toEqual([
      [0, 540],
      [660, 1200],
    ]);
  });

  test('a gap without readings hides no stop where it is short', () => {
    const without = (lengthS: number) => ({ without: (atS: number) => atS > 500 && atS < 500 + lengthS });
    expect(found({ compressor_w: () => 2000 }, without(150))).toEqual([[0, 1200]]);
    expect(found({ compressor_w: () => 2000 }, without(300))).toEqual([
      [0, 500],
      [800, 1200],
    ]);
  });

  test('power on rows of its own, and one reading alone', () => {
    expect(found({ compressor_w: (atS) => (atS % 20 === 0 ? 2000 : Number.NaN) })).toEqual([[0, 1200]]);
    expect(found({ compressor_w: between(600, 600, 2000, 0) })).toEqual([]);
  });
});

test('a mean leaves out what was not read', () => {
  const values = Float64Array.of(1, Number.NaN, 3, 100);
  expect(meanOf(values, 0, 3)).toBe(2);
  expect(meanOf(values, 1, 2)).toBeNaN();
  expect(meanOf(undefined, 0, 3)).toBeNaN();
});
