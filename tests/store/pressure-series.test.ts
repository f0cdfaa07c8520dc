import { describe, expect, test } from 'vitest';
import { pressureSeries } from '../../src/store/pressure-series.ts';

const none = Number.NaN;

function of(rows: readonly (readonly [elapsedS: number, testPa: number, lineC: number])[]) {
  const column = (place: 0 | 1 | 2) => Float64Array.from(rows, (row) => row[place]);
  return pressureSeries(column(0), column(1), column(2));
}

describe('the readings of a standing test', () => {
  test('are those with a pressure, each with the temperature of its row', () => {
    expect(
      of([
        [0, 1e5, 20],
        [10, none, 21],
        [20, 2e5, 22],
        [30, none, none],
      ]),
    ).toEqual({
      elapsedS: Float64Array.of(0, 20),
      testPa: Float64Array.of(1e5, 2e5),
      lineK: Float64Array.of(293.15, 295.15),
    });
  });

  test('whose rows have no temperature get that between the rows around them', () => {
    const found = of([
      [0, none, 20],
      [30, 1e5, none],
      [60, 2e5, none],
      [120, none, 24],
    ]);
    expect(found?.lineK?.[0]).toBeCloseTo(294.15, 9);
    expect(found?.lineK?.[1]).toBeCloseTo(295.15, 9);
  });

  test('before the first and after the last temperature get the nearest, but none from far away', () => {
    const found = of([
      [0, 1e5, none],
      [60, none, 20],
      [90, 2e5, none],
      [5000, 3e5, none],
    ]);
    expect([...(found?.lineK ?? [])]).toEqual([293.15, 293.15, Number.NaN]);
  });

  test('two rows of one moment share theirs', () => {
    const found = of([
      [0, 1e5, none],
      [0, none, 20],
      [0, 1.1e5, none],
    ]);
    expect([...(found?.lineK ?? [])]).toEqual([293.15, 293.15]);
  });

  test('have no temperature where no clamp was read, and are none where no pressure was', () => {
    expect(
      of([
        [0, 1e5, none],
        [1, 1e5, none],
      ])?.lineK,
    ).toBeUndefined();
    expect(of([[0, none, 20]])).toBeUndefined();
    expect(pressureSeries(Float64Array.of(0), Float64Array.of(1e5), undefined)?.lineK).toBeUndefined();
  });
});
