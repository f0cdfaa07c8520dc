import { describe, expect, test } from 'vitest';
import {
  copperTube,
  refrigerantNamed,
  saturatedLineMass,
  saturationAtPressure,
  saturationAtTemperature,
} from '../../../src/physics/index.ts';
import { referenceCells } from '../../reference-rows.ts';

const PSI_PA = 6894.757293168;
const kelvin = (fahrenheit: number) => (fahrenheit + 459.67) / 1.8;
const psig = (pressurePa: number) => pressurePa / PSI_PA - 14.696;

function solved(designation: string, temperatureK: number) {
  const saturation = saturationAtTemperature(refrigerantNamed(designation), temperatureK);
  if (!saturation.converged) throw new Error(`${designation} at ${temperatureK} K`);
  return saturation;
}

describe('handbooks, from memory', () => {
  test.each(referenceCells('handbook-saturation'))('$refrigerant boils at $bubble_c °C in the open', (row) => {
    const boiling = saturationAtPressure(refrigerantNamed(row.refrigerant), 101325);
    const tolerance = Number(row.tolerance_k);
    expect(boiling.converged && Math.abs(boiling.bubbleK - 273.15 - Number(row.bubble_c))).toBeLessThan(tolerance);
    expect(boiling.converged && Math.abs(boiling.dewK - 273.15 - Number(row.dew_c))).toBeLessThan(tolerance);
  });

  test.each(referenceCells('handbook-saturation', 'charts.csv'))(
    '$refrigerant at $temperature_f °F: $bubble_psig psig',
    (row) => {
      const { bubblePa } = solved(row.refrigerant, kelvin(Number(row.temperature_f)));
      expect(Math.abs(psig(bubblePa) - Number(row.bubble_psig))).toBeLessThan(Number(row.tolerance_psi));
    },
  );

  test.each(referenceCells('handbook-saturation', 'densities.csv'))('$refrigerant at 25 °C', (row) => {
    const { bubblePa, liquidKgPerM3 } = solved(row.refrigerant, 298.15);
    expect(Math.abs(bubblePa / 1e6 - Number(row.pressure_mpa))).toBeLessThan(Number(row.pressure_tolerance_mpa));
    expect(Math.abs(liquidKgPerM3 - Number(row.liquid_kg_per_m3))).toBeLessThan(
      Number(row.density_tolerance_kg_per_m3),
    );
  });
});

// Computed outside the project with CoolProp 8.0, printed beside the reference tables.
describe('check values in the units of the trade', () => {
  test.each([
    ['R-410A', 40, 118.79, 118.35],
    ['R-410A', 100, 318.54, 317.57],
    ['R-454B', 40, 113.19, 107.49],
    ['R-454B', 100, 303.27, 291.9],
  ] as const)('%s at %d °F: %d psig bubble, %d psig dew', (refrigerant, fahrenheit, bubblePsig, dewPsig) => {
    const { bubblePa, dewPa } = solved(refrigerant, kelvin(fahrenheit));
    expect(Math.abs(psig(bubblePa) - bubblePsig)).toBeLessThan(0.0051);
    expect(Math.abs(psig(dewPa) - dewPsig)).toBeLessThan(0.0051);
  });

  test('R-410A liquid at 100 °F is 61.7 lb/ft³; a foot of 3/8 in line holds 0.521 oz of it, of 1/4 in 0.1945 oz', () => {
    const at = kelvin(100);
    expect(solved('R-410A', at).liquidKgPerM3 * (0.3048 ** 3 / 0.45359237)).toBeCloseTo(61.7, 1);
    for (const [outerDiameterM, printedOz, tolerance] of [
      [0.009525, 0.521, 0.0005],
      [0.00635, 0.1945, 0.00005],
    ] as const) {
      const volume = copperTube(outerDiameterM)?.innerVolumeM3PerM ?? Number.NaN;
      const mass = saturatedLineMass(volume, refrigerantNamed('R-410A'), at);
      const ouncesPerFoot = mass.converged && (mass.liquidKgPerM * 0.3048) / 0.028349523125;
      expect(ouncesPerFoot && Math.abs(ouncesPerFoot - printedOz)).toBeLessThan(tolerance);
    }
  });

  test.each(referenceCells('line-set-rows').filter(({ basis }) => basis === 'computed; saturated liquid at 100 °F'))(
    '$refrigerant: $mass_oz_per_ft oz in a foot of $outer_diameter_in in at 100 °F',
    (row) => {
      const volume = copperTube(Number(row.outer_diameter_in) * 0.0254)?.innerVolumeM3PerM ?? Number.NaN;
      const mass = saturatedLineMass(volume, refrigerantNamed(row.refrigerant), kelvin(100));
      const ouncesPerFoot = mass.converged ? (mass.liquidKgPerM * 0.3048) / 0.028349523125 : Number.NaN;
      // The row's density is rounded to five figures.
      const tolerance = Number(row.tolerance_oz_per_ft) + 0.0002;
      expect(Math.abs(ouncesPerFoot - Number(row.mass_oz_per_ft))).toBeLessThan(tolerance);
    },
  );
});
