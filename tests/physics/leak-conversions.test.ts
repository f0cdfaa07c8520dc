import { describe, expect, test } from 'vitest';
import { leakAtOperatingPressure } from '../../src/physics/leak-at-operating-pressure.ts';
import { leakFromMolarLeak } from '../../src/physics/leak-from-molar-leak.ts';
import { leakFromRise } from '../../src/physics/leak-from-rise.ts';
import { leakFromYearlyLoss } from '../../src/physics/leak-from-yearly-loss.ts';
import { molarLeak } from '../../src/physics/molar-leak.ts';
import { nozzleThroughput } from '../../src/physics/nozzle-throughput.ts';
import { refrigerantDesignations, refrigerantNamed } from '../../src/physics/refrigerants/refrigerant-named.ts';
import { saturationAtTemperature } from '../../src/physics/refrigerants/saturation-at-temperature.ts';
import { vapourDensity } from '../../src/physics/refrigerants/vapour-density.ts';
import { riseFromLeak } from '../../src/physics/rise-from-leak.ts';
import { yearlyLoss } from '../../src/physics/yearly-loss.ts';
import { referenceRows } from '../reference-rows.ts';

const MBAR_L_PER_S = 0.1;
const OZ_KG = 0.028349523125;
const MICRON_PA = 0.133322368;

describe('yearlyLoss and leakFromYearlyLoss', () => {
  test.each(referenceRows('leak-mass-per-year'))(
    '1 mbar·L/s is $loss_g_per_year g a year at $molar_mass_g_per_mol g/mol, leak as mass a year',
    (row) => {
      const molarMassKgPerMol = row.molar_mass_g_per_mol / 1000;
      const lossKg = yearlyLoss(MBAR_L_PER_S, 293.15, molarMassKgPerMol);
      expect(Math.abs(lossKg * 1000 - row.loss_g_per_year)).toBeLessThanOrEqual(row.tolerance_g_per_year);
      expect(Math.abs(lossKg / OZ_KG - row.loss_oz_per_year)).toBeLessThanOrEqual(row.tolerance_oz_per_year);
      for (const [lossKgPerYear, leak] of [
        [0.005, row.leak_for_5_g_mbar_l_per_s],
        [OZ_KG, row.leak_for_1_oz_mbar_l_per_s],
      ]) {
        const found = leakFromYearlyLoss(lossKgPerYear, 293.15, molarMassKgPerMol) / MBAR_L_PER_S;
        expect(Math.abs(found / leak - 1)).toBeLessThanOrEqual(row.tolerance_ratio);
      }
    },
  );
});

describe('leak examples', () => {
  test.each(referenceRows('leak-examples'))('$leak_pa_m3_per_s Pa·m³/s', (row) => {
    const leak =
      row.volume_l > 0
        ? leakFromRise(row.volume_l / 1000, row.change_pa / row.duration_s)
        : leakFromYearlyLoss(row.loss_g_per_year / 1000, row.temperature_k, row.molar_mass_g_per_mol / 1000);
    expect(Math.abs(leak / row.leak_pa_m3_per_s - 1)).toBeLessThanOrEqual(row.tolerance_ratio);
  });
});

test('every conversion goes there and back', () => {
  expect(riseFromLeak(0.005, leakFromRise(0.005, 0.0022))).toBeCloseTo(0.0022, 15);
  expect(leakFromMolarLeak(molarLeak(1.5e-4, 280), 280)).toBeCloseTo(1.5e-4, 18);
  expect(leakFromYearlyLoss(yearlyLoss(1.5e-4, 280, 0.0726), 280, 0.0726)).toBeCloseTo(1.5e-4, 18);
});

test('a mole is 22.414 L at 0 °C and 101 325 Pa (CODATA, from memory)', () => {
  expect(leakFromMolarLeak(1, 273.15) / 101325).toBeCloseTo(0.022414, 6);
});

describe('leakAtOperatingPressure', () => {
  const r410a = { temperatureK: 294.26, molarMassKgPerMol: 0.072585, viscosityPaS: 13.5e-6 };

  test.each(referenceRows('leak-at-pressure'))(
    'passes $least to $most times as much at $pressure_pa Pa, leak at pressure',
    (row) => {
      const gas = { temperatureK: 293.15, molarMassKgPerMol: row.molar_mass_g_per_mol / 1000 };
      const band = leakAtOperatingPressure({
        leakPaM3PerS: 1e-5,
        operatingPa: row.pressure_pa,
        viscosityPaS: row.viscosity_upa_s * 1e-6,
        ...gas,
      });
      const once = yearlyLoss(1e-5, gas.temperatureK, gas.molarMassKgPerMol);
      expect(Math.abs(band.lowKgPerYear / once - row.least)).toBeLessThanOrEqual(row.tolerance_least);
      expect(Math.abs(band.highKgPerYear / once - row.most)).toBeLessThanOrEqual(row.tolerance_most);
    },
  );

  test('5 L rising 1 µm a minute lose up to 3 kg a year of R-410A at 70 °F', () => {
    const leakPaM3PerS = leakFromRise(0.005, MICRON_PA / 60);
    const { highKgPerYear } = leakAtOperatingPressure({ leakPaM3PerS, operatingPa: 14.87e5, ...r410a });
    expect(highKgPerYear).toBeCloseTo(3, 1);
  });

  test('a laminar leak of 3 g a year of R-410A shows as 0.001 µm a minute in 5 L', () => {
    const one = leakAtOperatingPressure({ leakPaM3PerS: 1, operatingPa: 14.87e5, ...r410a });
    const micronsPerMin = (riseFromLeak(0.005, 0.003 / one.highKgPerYear) / MICRON_PA) * 60;
    expect(micronsPerMin).toBeCloseTo(0.001, 4);
  });

  test('is a band that grows with pressure and with the leak, from 0 at the atmosphere', () => {
    let before = { lowKgPerYear: 0, highKgPerYear: 0 };
    expect(leakAtOperatingPressure({ leakPaM3PerS: 1e-5, operatingPa: 101325, ...r410a })).toEqual(before);
    for (let operatingPa = 101326; operatingPa < 5e6; operatingPa *= 1.1) {
      const band = leakAtOperatingPressure({ leakPaM3PerS: 1e-5, operatingPa, ...r410a });
      expect(band.lowKgPerYear).toBeGreaterThan(before.lowKgPerYear);
      expect(band.highKgPerYear).toBeGreaterThan(before.highKgPerYear);
      expect(band.highKgPerYear).toBeGreaterThanOrEqual(band.lowKgPerYear);
      before = band;
    }
    const twice = leakAtOperatingPressure({ leakPaM3PerS: 2e-5, operatingPa: 14.87e5, ...r410a });
    const once = leakAtOperatingPressure({ leakPaM3PerS: 1e-5, operatingPa: 14.87e5, ...r410a });
    expect(twice.highKgPerYear).toBeCloseTo(2 * once.highKgPerYear, 12);
  });

  test('high up, where nothing else was seen, the air is thinner and the same rise a bigger hole', () => {
    const low = leakAtOperatingPressure({ leakPaM3PerS: 1e-5, operatingPa: 14.87e5, ...r410a });
    const high = leakAtOperatingPressure({ leakPaM3PerS: 1e-5, operatingPa: 14.87e5, atmospherePa: 84000, ...r410a });
    expect(high.lowKgPerYear).toBeGreaterThan(low.lowKgPerYear);
    expect(high.highKgPerYear).toBeGreaterThan(low.highKgPerYear);
  });
});

describe('how far the refrigerants are from the ideal gas, as the docstrings say it', () => {
  const perMol = (kgPerM3: number, molarMass: number, temperatureK: number, pressurePa: number) =>
    (kgPerM3 * 8.314462618 * temperatureK) / (molarMass * pressurePa);
  const spread = (denser: readonly number[]) => [Math.min(...denser), Math.max(...denser)];

  test.each([
    [293.15, 0.013, 0.025],
    [273.15, 0.017, 0.032],
  ])('at one atmosphere and %d K molarLeak is %d to %d too small', (temperatureK, least, most) => {
    const [low, high] = spread(
      refrigerantDesignations.map((designation) => {
        const refrigerant = refrigerantNamed(designation);
        const vapour = vapourDensity(refrigerant, temperatureK, 101325);
        if (!vapour.converged) throw new Error(designation);
        return 1 - 1 / perMol(vapour.densityKgPerM3, refrigerant.molarMassKgPerMol, temperatureK, 101325);
      }),
    );
    expect(Math.abs(low - least)).toBeLessThan(0.0005);
    expect(Math.abs(high - most)).toBeLessThan(0.0005);
  });

  test.each([
    [293.15, 0.13, 0.32],
    [313.15, 0.21, 0.54],
  ])('saturated at %d K they are %d to %d denser', (temperatureK, least, most) => {
    const [low, high] = spread(
      refrigerantDesignations.map((designation) => {
        const refrigerant = refrigerantNamed(designation);
        const saturation = saturationAtTemperature(refrigerant, temperatureK);
        if (!saturation.converged) throw new Error(designation);
        const { vapourKgPerM3, dewPa } = saturation;
        return perMol(vapourKgPerM3, refrigerant.molarMassKgPerMol, temperatureK, dewPa) - 1;
      }),
    );
    expect(Math.abs(low - least)).toBeLessThan(0.005);
    expect(Math.abs(high - most)).toBeLessThan(0.005);
  });

  // p₂/(p₁ − p₂), since a sonic nozzle passes in proportion to p₁.
  test.each([
    [5e5, 0.2542],
    [8e5, 0.145],
    [14e5, 0.078],
  ])('at %d Pa a hole lies %d above molecular', (operatingPa, above) => {
    const hole = nozzleThroughput(1, operatingPa, 101325) / nozzleThroughput(1, 101325, 0);
    const molecular = (operatingPa - 101325) / 101325;
    expect(hole / molecular - 1).toBeCloseTo(above, 3);
  });
});
