import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  composeRefrigerant,
  type Refrigerant,
  refrigerantDesignations,
  refrigerantNamed,
  saturationAtPressure,
  saturationAtTemperature,
  vapourDensity,
} from '../../../src/physics/index.ts';
import { refrigerantFluids } from '../../../src/physics/fluids/fluids.ts';

const seed = 3;

/** A refrigerant with a name, and a temperature from its triple point (or −90 °C) to 95 % of its critical one. */
const states = fc.constantFrom(...refrigerantDesignations).chain((designation) => {
  const refrigerant = refrigerantNamed(designation);
  const criticalK = Math.min(...refrigerant.components.map((fluid) => fluid.criticalK));
  return fc.record({
    refrigerant: fc.constant(refrigerant),
    temperatureK: fc.double({ min: Math.max(183.15, refrigerant.lowestK), max: 0.95 * criticalK, noNaN: true }),
  });
});

/** Any blend of two to five of the fluids. */
const blendsOfAny = fc
  .uniqueArray(fc.constantFrom(...refrigerantFluids.map((fluid) => fluid.designation)), { minLength: 2, maxLength: 5 })
  .chain((names) =>
    fc
      .array(fc.double({ min: 0.02, max: 1, noNaN: true }), { minLength: names.length, maxLength: names.length })
      .map((parts) => {
        const total = parts.reduce((sum, part) => sum + part, 0);
        return composeRefrigerant('a blend', Object.fromEntries(names.map((name, i) => [name, parts[i] / total])));
      }),
  );

function solved(refrigerant: Refrigerant, temperatureK: number) {
  const saturation = saturationAtTemperature(refrigerant, temperatureK);
  if (!saturation.converged) throw new Error(`${refrigerant.designation} at ${temperatureK} K`);
  return saturation;
}

describe('saturation', () => {
  test('comes back to the temperature it started from', () => {
    fc.assert(
      fc.property(states, ({ refrigerant, temperatureK }) => {
        const { bubblePa, dewPa } = solved(refrigerant, temperatureK);
        const bubble = saturationAtPressure(refrigerant, bubblePa);
        const dew = saturationAtPressure(refrigerant, dewPa);
        expect(bubble.converged && Math.abs(bubble.bubbleK - temperatureK)).toBeLessThan(1e-7);
        expect(dew.converged && Math.abs(dew.dewK - temperatureK)).toBeLessThan(1e-7);
      }),
      { seed, numRuns: 200 },
    );
  });

  test('bubble pressure is at least dew pressure, and dew point at least bubble point', () => {
    fc.assert(
      fc.property(states, ({ refrigerant, temperatureK }) => {
        const { bubblePa, dewPa, liquidKgPerM3, vapourKgPerM3 } = solved(refrigerant, temperatureK);
        expect(bubblePa).toBeGreaterThanOrEqual(dewPa * (1 - 1e-9));
        expect(liquidKgPerM3).toBeGreaterThan(vapourKgPerM3);
        const there = saturationAtPressure(refrigerant, dewPa);
        expect(there.converged && there.dewK - there.bubbleK).toBeGreaterThanOrEqual(-1e-7);
      }),
      { seed, numRuns: 100 },
    );
  });

  test('rises with temperature: pressures and vapour, while the liquid gets lighter', () => {
    fc.assert(
      fc.property(states, fc.double({ min: 0.01, max: 5, noNaN: true }), ({ refrigerant, temperatureK }, warmerK) => {
        const cold = solved(refrigerant, temperatureK);
        const warm = solved(refrigerant, temperatureK + warmerK);
        expect(warm.bubblePa).toBeGreaterThan(cold.bubblePa);
        expect(warm.dewPa).toBeGreaterThan(cold.dewPa);
        expect(warm.vapourKgPerM3).toBeGreaterThan(cold.vapourKgPerM3);
        expect(warm.liquidKgPerM3).toBeLessThan(cold.liquidKgPerM3);
      }),
      { seed, numRuns: 100 },
    );
  });

  test('of any blend of the fluids is solved, −60 °C to 85 % of the lowest critical temperature', () => {
    fc.assert(
      fc.property(blendsOfAny, fc.double({ min: 0, max: 1, noNaN: true }), (blend, share) => {
        const criticalK = Math.min(...blend.components.map((fluid) => fluid.criticalK));
        const { bubblePa, dewPa, residual } = solved(blend, 213.15 + share * (0.85 * criticalK - 213.15));
        expect(bubblePa).toBeGreaterThanOrEqual(dewPa * (1 - 1e-9));
        expect(residual).toBeLessThan(1e-8);
      }),
      { seed, numRuns: 200 },
    );
  });
});

describe('a blend of one component', () => {
  test.each(refrigerantFluids)('is $designation itself', ({ designation }) => {
    const blend = composeRefrigerant('one', { [designation]: 1 });
    expect(saturationAtTemperature(blend, 280)).toEqual(saturationAtTemperature(refrigerantNamed(designation), 280));
  });

  test('tends to it as the other vanishes, within the difference of the gas constants', () => {
    const nearly = composeRefrigerant('nearly', { 'R-32': 1 - 1e-7, 'R-125': 1e-7 });
    const [blend, pure] = [solved(nearly, 280), solved(refrigerantNamed('R-32'), 280)];
    expect(Math.abs(blend.bubblePa / pure.bubblePa - 1)).toBeLessThan(2e-6);
    expect(Math.abs(blend.dewPa / pure.dewPa - 1)).toBeLessThan(2e-6);
    expect(Math.abs(blend.liquidKgPerM3 / pure.liquidKgPerM3 - 1)).toBeLessThan(2e-6);
  });

  test('does not depend on the order of its components', () => {
    const one = solved(composeRefrigerant('one', { 'R-32': 0.215, 'R-1234yf': 0.785 }), 270);
    const other = solved(composeRefrigerant('other', { 'R-1234yf': 0.785, 'R-32': 0.215 }), 270);
    expect(other.bubblePa / one.bubblePa).toBeCloseTo(1, 12);
    expect(other.dewPa / one.dewPa).toBeCloseTo(1, 12);
  });
});

describe('composing', () => {
  test.each([
    [{ 'R-32': 0.5, 'R-125': 0.49 }, 'sum of the mass fractions of mine out of range: must be 1, received 0.99'],
    [{ 'R-32': 50, 'R-125': 50 }, 'sum of the mass fractions of mine out of range: must be 1, received 100'],
    [{ 'R-32': 1.2, 'R-125': -0.2 }, 'mass fraction of R-125 in mine out of range: must be above 0, received -0.2'],
    [{ 'R-32': 1, 'R-125': 0 }, 'mass fraction of R-125 in mine out of range: must be above 0, received 0'],
    [{ 'R-32': Number.NaN }, 'mass fraction of R-32 in mine out of range: must be above 0, received NaN'],
    [{}, 'sum of the mass fractions of mine out of range: must be 1, received 0'],
    [{ 'R-13': 1 }, 'no equation of state for "R-13"; known: R-22, R-32'],
  ] as [Record<string, number>, string][])('refuses %j', (fractions, text) => {
    expect(() => composeRefrigerant('mine', fractions)).toThrow(text);
  });

  test('takes fractions as they are rounded in print', () => {
    const thirds = composeRefrigerant('thirds', { 'R-32': 0.3333333, 'R-125': 0.3333333, 'R-134a': 0.3333333 });
    for (const fraction of thirds.massFractions) expect(fraction).toBeCloseTo(1 / 3, 12);
  });

  test('names the pairs that nobody published', () => {
    expect(refrigerantNamed('R-448A').estimatedPairs).toEqual([]);
    expect(composeRefrigerant('mine', { 'R-22': 0.3, 'R-125': 0.7 }).estimatedPairs).toEqual(['R-22 with R-125']);
  });

  test('knows no refrigerant without an equation of state', () => {
    expect(() => refrigerantNamed('R-11')).toThrow('no equation of state for "R-11"; known: R-22, R-32');
  });
});

describe('limits', () => {
  test.each(refrigerantFluids)('$designation: solved just inside the triple point, refused outside', (fluid) => {
    const refrigerant = refrigerantNamed(fluid.designation);
    const inside = solved(refrigerant, fluid.tripleK);
    expect(inside.bubblePa).toBeGreaterThan(0);
    expect(() => saturationAtTemperature(refrigerant, fluid.tripleK - 0.001)).toThrow(/triple and critical point/);
    const there = saturationAtPressure(refrigerant, inside.bubblePa * 1.001);
    expect(there.converged && there.bubbleK).toBeGreaterThan(fluid.tripleK);
    expect(() => saturationAtPressure(refrigerant, inside.bubblePa * 0.999)).toThrow(/triple point/);
  });

  test.each(refrigerantFluids)('$designation: solved 0.05 K below the critical point, refused above it', (fluid) => {
    const refrigerant = refrigerantNamed(fluid.designation);
    const { bubblePa, liquidKgPerM3, vapourKgPerM3 } = solved(refrigerant, fluid.criticalK - 0.05);
    // The papers' own critical points differ from those of their equations by up to 0.03 %.
    expect(Math.abs(bubblePa / fluid.criticalPa - 1)).toBeLessThan(2e-3);
    expect(liquidKgPerM3 / vapourKgPerM3).toBeGreaterThan(1.1);
    expect(() => saturationAtTemperature(refrigerant, fluid.criticalK + 0.001)).toThrow(/triple and critical point/);
    expect(() => saturationAtPressure(refrigerant, fluid.criticalPa * 1.0001)).toThrow(/critical point/);
  });

  test.each(refrigerantFluids)('$designation: not converged at the critical point, and says so', (fluid) => {
    const saturation = saturationAtTemperature(refrigerantNamed(fluid.designation), fluid.criticalK);
    expect(saturation.converged).toBe(false);
    expect(!saturation.converged && fluid.criticalK - saturation.lastK).toBeLessThan(0.06);
  });

  test.each(refrigerantDesignations.filter((name) => refrigerantNamed(name).components.length > 1))(
    '%s: not converged beyond its critical region, refused above that of its components',
    (designation) => {
      const refrigerant = refrigerantNamed(designation);
      const highestK = Math.max(...refrigerant.components.map((fluid) => fluid.criticalK));
      const beyond = saturationAtTemperature(refrigerant, highestK);
      expect(beyond.converged).toBe(false);
      expect(!beyond.converged && solved(refrigerant, beyond.lastK - 0.5).bubblePa).toBeGreaterThan(3e6);
      expect(() => saturationAtTemperature(refrigerant, highestK + 0.001)).toThrow(/critical point of components/);
      expect(saturationAtPressure(refrigerant, 7e6).converged).toBe(false);
      expect(() => saturationAtPressure(refrigerant, refrigerant.highestPa * 1.001)).toThrow(/at most/);
    },
  );

  test.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])('%d Pa and K are refused', (value) => {
    expect(() => saturationAtPressure(refrigerantNamed('R-410A'), value)).toThrow(/out of range/);
    expect(() => saturationAtTemperature(refrigerantNamed('R-410A'), value)).toThrow(/out of range/);
  });
});

describe('vapourDensity', () => {
  const r410a = refrigerantNamed('R-410A');

  test('meets the saturated vapour at the dew point, and is refused above its pressure', () => {
    const { dewPa, vapourKgPerM3 } = solved(r410a, 280);
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

  test('is refused outside the limits of the equations', () => {
    expect(() => vapourDensity(r410a, 172, 100)).toThrow(/must be 172.52 to 435/);
    expect(() => vapourDensity(r410a, 435.1, 1e5)).toThrow(/must be 172.52 to 435/);
    expect(() => vapourDensity(r410a, 300, 0)).toThrow(/above 0/);
    expect(() => vapourDensity(r410a, 430, 6.1e7)).toThrow(/at most 60000000/);
  });
});
