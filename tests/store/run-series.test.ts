import { describe, expect, test } from 'vitest';
import { type RunningColumns, runSeries } from '../../src/store/run-series.ts';

const none = Number.NaN;
const elapsedS = Float64Array.of(0, 10, 20, 30, 40);
const of = (columns: Record<string, readonly number[]>) =>
  runSeries(
    elapsedS,
    Object.fromEntries(
      Object.entries(columns).map(([name, values]) => [name, Float64Array.from(values)]),
    ) as RunningColumns,
  );

describe('the readings of a running system', () => {
  test('go from the first to the last row that tells of it', () => {
    const series = of({
      suction_pa: [none, none, 9e5, none, none],
      compressor_w: [none, 0, 2000, 2000, none],
      outdoor_c: [30, 31, 32, 33, 34],
    });
    expect(series?.elapsedS).toEqual(Float64Array.of(10, 20, 30));
    expect(series?.columns).toEqual({
      suction_pa: Float64Array.of(none, 9e5, none),
      compressor_w: Float64Array.of(0, 2000, 2000),
      outdoor_c: Float64Array.of(31, 32, 33),
    });
  });

  test('carry mode and vacuum gauge along, over range or not', () => {
    const series = of({
      suction_pa: [none, 9e5, 9e5, 9e5, none],
      run_mode: [0, 0, 1, 1, 2],
      vacuum_pa: [66, 67, Number.POSITIVE_INFINITY, none, 68],
    });
    expect(series?.mode).toEqual(Float64Array.of(0, 1, 1));
    expect(series?.vacuumPa).toEqual(Float64Array.of(67, Number.POSITIVE_INFINITY, none));
  });

  test('lack columns that nobody read there', () => {
    const series = of({
      suction_pa: [none, 9e5, 9e5, 9e5, none],
      liquid_pa: [none, none, none, none, none],
      supply_c: [14, none, none, none, 14],
    });
    expect(Object.keys(series?.columns ?? {})).toEqual(['suction_pa']);
    expect(series?.mode).toBeUndefined();
  });

  test('are none where air alone was read', () => {
    expect(of({ outdoor_c: [30, 30, 30, 30, 30], supply_c: [14, 14, 14, 14, 14] })).toBeUndefined();
    expect(of({ suction_pa: [none, none, none, none, none] })).toBeUndefined();
    expect(of({})).toBeUndefined();
  });
});
