import { expect, test } from 'vitest';
import { virialDensity, virialPressure } from '../../src/simulate/nitrogen-virial.ts';
import { referenceRows } from '../reference-rows.ts';

const molarMassKgPerMol = 0.0280134;

// The figures of the virial equation are from memory. Measured: up to 0.113 % apart, up to 70 bar.
test.each(referenceRows('coolprop-nitrogen').filter(({ pressure_pa }) => pressure_pa <= 7e6))(
  'is within 0.12 % of CoolProp 8.0 at $temperature_c °C and $pressure_pa Pa',
  (row) => {
    const kelvin = row.temperature_c + 273.15;
    const density = row.density_kg_per_m3 / molarMassKgPerMol;
    expect(Math.abs(virialPressure(density, kelvin) / row.pressure_pa - 1)).toBeLessThan(0.0012);
    expect(virialPressure(virialDensity(row.pressure_pa, kelvin), kelvin) / row.pressure_pa).toBeCloseTo(1, 6);
  },
);
