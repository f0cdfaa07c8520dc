import { describe, expect, test } from 'vitest';
import { standardAtmosphere } from '../../src/physics/index.ts';
import { referenceRows } from '../reference-rows.ts';

describe('standardAtmosphere', () => {
  test.each(referenceRows('iso-2533'))('reproduces $pressure_pa Pa at $altitude_m m, ISO 2533', (row) => {
    expect(Math.abs(standardAtmosphere(row.altitude_m) - row.pressure_pa)).toBeLessThanOrEqual(row.tolerance_pa);
  });

  test('holds at both ends of its layer and refuses just outside', () => {
    expect(standardAtmosphere(-2000)).toBeGreaterThan(standardAtmosphere(0));
    expect(() => standardAtmosphere(-2001)).toThrow(
      'altitude [m] out of range: must be -2000 to 11000, received -2001',
    );
    expect(() => standardAtmosphere(11001)).toThrow(/out of range/);
  });
});
