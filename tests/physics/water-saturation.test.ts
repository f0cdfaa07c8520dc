import { describe, expect, test } from 'vitest';
import { waterLiquidDensity } from '../../src/physics/water-liquid-density.ts';
import { waterSaturationTemperature } from '../../src/physics/water-saturation-temperature.ts';
import { waterVapourDensity } from '../../src/physics/water-vapour-density.ts';
import { waterVapourPressure } from '../../src/physics/water-vapour-pressure.ts';
import { referenceRows } from '../reference-rows.ts';

const MICRON_PA = 0.133322368;
const kelvin = (temperatureF: number) => (temperatureF + 459.67) / 1.8;

describe('vapour pressure and its inverse', () => {
  test.each(referenceRows('water-by-temperature'))(
    '$temperature_f °F is $pressure_um_hg µm, vapour pressure of water by temperature',
    (row) => {
      const pressurePa = waterVapourPressure(kelvin(row.temperature_f));
      expect(Math.abs(pressurePa - row.pressure_pa)).toBeLessThanOrEqual(row.tolerance_pa);
      expect(Math.abs(pressurePa / MICRON_PA - row.pressure_um_hg)).toBeLessThanOrEqual(row.tolerance_um_hg);
    },
  );

  test.each(referenceRows('water-by-microns'))(
    '$pressure_um_hg µm is $temperature_f °F, boiling point of water by vacuum',
    (row) => {
      const temperatureK = waterSaturationTemperature(row.pressure_um_hg * MICRON_PA);
      expect(Math.abs(temperatureK * 1.8 - 459.67 - row.temperature_f)).toBeLessThanOrEqual(row.tolerance_f);
      expect(Math.abs(temperatureK - 273.15 - row.temperature_c)).toBeLessThanOrEqual(row.tolerance_c);
    },
  );

  test('go there and back within 1e-9 K, 50 to 647.096 K', () => {
    for (let temperatureK = 50; temperatureK < 647.096; temperatureK += 0.37) {
      const back = waterSaturationTemperature(waterVapourPressure(temperatureK));
      expect(Math.abs(back - temperatureK)).toBeLessThan(1e-9);
    }
    for (const temperatureK of [50, 273.16 - 1e-6, 273.16, 273.16 + 1e-6, 647.096]) {
      expect(Math.abs(waterSaturationTemperature(waterVapourPressure(temperatureK)) - temperatureK)).toBeLessThan(1e-9);
    }
  });

  test('meet at the triple point', () => {
    expect(waterSaturationTemperature(611.657)).toBe(273.16);
    expect(waterSaturationTemperature(611.65703)).toBe(273.16);
    expect(waterSaturationTemperature(611.6569)).toBeLessThan(273.16);
    expect(waterSaturationTemperature(611.6572)).toBeGreaterThan(273.16);
  });

  test('the inverse holds at both ends and refuses just outside', () => {
    expect(waterSaturationTemperature(22.064e6)).toBeCloseTo(647.096, 9);
    expect(() => waterSaturationTemperature(22.0641e6)).toThrow(
      'vapour pressure of water [Pa] out of range: must be 1.9e-40 to 22064000, received 22064100',
    );
    expect(() => waterSaturationTemperature(0)).toThrow(/out of range/);
    expect(() => waterSaturationTemperature(Number.NaN)).toThrow(/out of range/);
  });
});

describe('every row of the reference properties (CoolProp 8.0, IAPWS-95)', () => {
  const rows = referenceRows('coolprop-water');

  test('has its boiling point within 0.0011 K', () => {
    for (const row of rows) {
      const temperatureK = waterSaturationTemperature(row.bubble_pa);
      expect(Math.abs(temperatureK - 273.15 - row.temperature_c)).toBeLessThan(0.0011);
    }
  });

  test('has its liquid density within 0.0007 %, its vapour density within 0.015 %', () => {
    for (const row of rows) {
      const temperatureK = row.temperature_c + 273.15;
      expect(Math.abs(waterLiquidDensity(temperatureK) / row.liquid_kg_per_m3 - 1)).toBeLessThan(7e-6);
      expect(Math.abs(waterVapourDensity(temperatureK) / row.vapour_kg_per_m3 - 1)).toBeLessThan(1.5e-4);
    }
  });
});

describe('densities', () => {
  test.each(referenceRows('iapws-sr1-86', 'densities.csv'))('reproduce SR1-86 at $temperature_k K', (row) => {
    const liquid = waterLiquidDensity(row.temperature_k);
    const vapour = waterVapourDensity(row.temperature_k);
    expect(Math.abs(liquid - row.liquid_kg_per_m3)).toBeLessThanOrEqual(row.liquid_tolerance_kg_per_m3);
    expect(Math.abs(vapour / row.vapour_kg_per_m3 - 1)).toBeLessThanOrEqual(row.vapour_tolerance_ratio);
  });

  test('hold 92 mg of vapour in 5 L at 70 °F, by the ideal gas outside the project', () => {
    expect(waterVapourDensity(kelvin(70)) * 0.005 * 1e6).toBeCloseTo(92, 0);
  });

  test.each([
    ['liquid', waterLiquidDensity, 'temperature of liquid water [K]'],
    ['vapour', waterVapourDensity, 'temperature of saturated water vapour [K]'],
  ] as const)('of %s refuse what lies just outside', (_, density, quantity) => {
    expect(() => density(273.14)).toThrow(`${quantity} out of range: must be 273.15 to 647.096, received 273.14`);
    expect(() => density(647.1)).toThrow(/out of range/);
    expect(() => density(Number.NaN)).toThrow(/out of range/);
  });
});
