import { describe, expect, test } from 'vitest';
import { Random } from '../../../src/numerics/random.ts';
import { refrigerantFluids } from '../../../src/physics/fluids/fluids.ts';
import {
  type Refrigerant,
  refrigerantNamed,
  saturationAtTemperature,
  vapourDensity,
} from '../../../src/physics/index.ts';

function dewOf(refrigerant: Refrigerant) {
  const saturation = saturationAtTemperature(refrigerant, 280);
  if (!saturation.converged) throw new Error(refrigerant.designation);
  return saturation;
}

describe('vapourDensity', () => {
  const r410a = refrigerantNamed('R-410A');

  test('meets the saturated vapour at the dew point, and is refused above its pressure', () => {
    const { dewPa, vapourKgPerM3 } = dewOf(r410a);
    const found = vapourDensity(r410a, 280, dewPa);
    expect(found.converged && found.densityKgPerM3 / vapourKgPerM3).toBeCloseTo(1, 9);
    expect(() => vapourDensity(r410a, 280, dewPa * 1.001)).toThrow(/dew point/);
  });

  test('tends to the ideal gas', () => {
    const found = vapourDensity(r410a, 300, 10);
    const ideal = (10 * r410a.molarMassKgPerMol) / (r410a.gasConstantJPerMolK * 300);
    expect(found.converged && found.densityKgPerM3 / ideal).toBeCloseTo(1, 5);
  });

  test('near and above the critical temperature: given up to the last dew pressure, not converged beyond', () => {
    expect(vapourDensity(r410a, 360, 3e6).converged).toBe(true);
    expect(vapourDensity(r410a, 360, 6e6).converged).toBe(false);
    expect(vapourDensity(refrigerantNamed('R-32'), 360, 7e6).converged).toBe(true);
  });

  test.each(refrigerantFluids)('of supercritical $designation is found everywhere within the limits', (fluid) => {
    const random = new Random(11);
    for (let k = 0; k < 200; k += 1) {
      const temperatureK = random.uniform(fluid.criticalK, fluid.highestK);
      const pressurePa = fluid.highestPa * 10 ** -random.uniform(0, 4);
      const found = vapourDensity(refrigerantNamed(fluid.designation), temperatureK, pressurePa);
      expect([temperatureK, pressurePa, found.converged]).toEqual([temperatureK, pressurePa, true]);
    }
  });

  test('is refused outside the limits of the equations', () => {
    expect(() => vapourDensity(r410a, 172, 100)).toThrow(/must be 172.52 to 435/);
    expect(() => vapourDensity(r410a, 435.1, 1e5)).toThrow(/must be 172.52 to 435/);
    expect(() => vapourDensity(r410a, 300, 0)).toThrow(/above 0/);
    expect(() => vapourDensity(r410a, 430, 6.1e7)).toThrow(/at most 60000000/);
  });
});
