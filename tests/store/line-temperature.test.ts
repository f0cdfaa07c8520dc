import { describe, expect, test } from 'vitest';
import { Random } from '../../src/numerics/random.ts';
import { lineTemperature } from '../../src/store/line-temperature.ts';

const absent = Number.NaN;

function of(lineC: number[], vacuumPa = lineC.map(() => 50), elapsedS = lineC.map((_, row) => row)) {
  return lineTemperature(Float64Array.from(elapsedS), Float64Array.from(vacuumPa), Float64Array.from(lineC));
}

describe('the mean and the coldest', () => {
  test('of every reading, one low reading left out', () => {
    expect(of([10, 10, 9, -40, 9, 10, 10])).toEqual({ meanK: 273.15 + 18 / 7, lowK: 273.15 + 9 });
    // Two in a row are no spike.
    expect(of([10, 10, 4, 3, 10, 10])?.lowK).toBe(273.15 + 4);
  });

  test('of one or two readings none is left out, and none is taken for a spike', () => {
    expect(of([5])).toEqual({ meanK: 278.15, lowK: 278.15 });
    expect(of([5, 7])).toEqual({ meanK: 279.15, lowK: 279.15 });
  });

  test('of a long log enough readings are looked at', () => {
    const random = new Random(1);
    // A pipe that cools from 20 to 10 °C and warms again, to 0.1 K.
    const lineC = Array.from({ length: 20_000 }, (_, row) =>
      Number((10 + Math.abs(row - 10_000) / 1000 + 0.05 * random.normal()).toFixed(1)),
    );
    const found = of(lineC);
    expect(found?.meanK).toBeCloseTo(273.15 + 15, 1);
    expect(found?.lowK).toBeGreaterThan(273.15 + 9.85);
    expect(found?.lowK).toBeLessThan(273.15 + 10.1);
  });
});

describe('rows that do not hold both', () => {
  test('a clamp that is read in rows of its own', () => {
    const vacuumPa = [100, absent, 90, absent, 80, absent, 70];
    expect(of([absent, 12, absent, 10, absent, 11, absent], vacuumPa)).toEqual({
      meanK: 273.15 + 11,
      lowK: 273.15 + 11,
    });
  });

  test('a clamp that is read seldom in a long log', () => {
    const lineC = Array.from({ length: 30_000 }, (_, row) => (row % 7001 === 11 ? 8 + row / 7001 : absent));
    const found = of(lineC);
    // Readings at rows 11, 7012 …: 8, 9, 10, 11, 12 °C and a little.
    expect(found?.meanK).toBeCloseTo(273.15 + 10, 2);
    expect(found?.lowK).toBeCloseTo(273.15 + 9, 2);
  });

  test('before and after the vacuum was read the clamp says nothing', () => {
    const vacuumPa = [absent, absent, 100, Number.POSITIVE_INFINITY, 80, absent];
    expect(of([-9, -9, 20, 21, 22, -9], vacuumPa)).toEqual({ meanK: 294.15, lowK: 294.15 });
    expect(of([-9, -9, absent, absent, absent, -9], vacuumPa)).toBeUndefined();
  });

  test('one moment of several gauges counts once, so that a spike stays one', () => {
    const elapsedS = [0, 0, 1, 1, 2, 2, 3, 3];
    const found = of([10, 10, -40, -40, 10, 10, 10, 10], undefined, elapsedS);
    expect(found).toEqual({ meanK: 273.15 - 2.5, lowK: 273.15 + 10 });
  });

  test('no clamp, or no vacuum', () => {
    expect(of([absent, absent])).toBeUndefined();
    expect(of([10, 10], [absent, absent])).toBeUndefined();
    expect(of([])).toBeUndefined();
  });
});
