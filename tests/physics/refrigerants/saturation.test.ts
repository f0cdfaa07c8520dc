import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Random } from '../../../src/numerics/random.ts';
import {
  composeRefrigerant,
  fastSaturationOf,
  type Refrigerant,
  refrigerantDesignations,
  refrigerantNamed,
  saturationAtPressure,
  saturationAtTemperature,
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

  test('of any blend of the fluids is solved, −60 °C to 85 % of the lowest critical temperature, or parts in two', () => {
    let parted = 0;
    fc.assert(
      fc.property(blendsOfAny, fc.double({ min: 0, max: 1, noNaN: true }), (blend, share) => {
        const criticalK = Math.min(...blend.components.map((fluid) => fluid.criticalK));
        const saturation = saturationAtTemperature(blend, 213.15 + share * (0.85 * criticalK - 213.15));
        if (saturation.converged) {
          expect(saturation.bubblePa).toBeGreaterThanOrEqual(saturation.dewPa * (1 - 1e-9));
          expect(saturation.residual).toBeLessThan(1e-8);
        } else {
          // Only propane is so unlike the others.
          expect(saturation.reason).toBe('two-liquids');
          expect(blend.components.map((fluid) => fluid.designation)).toContain('R-290');
          parted += 1;
        }
      }),
      { seed, numRuns: 300 },
    );
    expect(parted).toBeLessThan(30);
  });

  test.each([
    [0.24, 254.6],
    [0.26, 255.8],
  ])(
    'of unlike fluids is found where the rough start leads nowhere: %d of R-290 in R-32, %d K',
    (share, temperatureK) => {
      const blend = composeRefrigerant('propane and R-32', { 'R-290': share, 'R-32': 1 - share });
      expect(solved(blend, temperatureK).bubblePa).toBeGreaterThan(
        solved(refrigerantNamed('R-32'), temperatureK).bubblePa,
      );
    },
  );

  test('of a blend with a trace of another is that of the pure fluid', () => {
    const pure = solved(refrigerantNamed('R-290'), 250);
    const trace = solved(composeRefrigerant('a trace', { 'R-290': 1 - 1e-12, 'R-134a': 1e-12 }), 250);
    expect(trace.bubblePa / pure.bubblePa).toBeCloseTo(1, 5);
    expect(trace.dewPa / pure.dewPa).toBeCloseTo(1, 5);
  });
});

describe('the curve has no holes and no false branches', () => {
  // From nothing each time, and against the tables, which walk: around the place where the walk begins, and anywhere.
  test.each(refrigerantDesignations)('%s', (designation) => {
    const refrigerant = refrigerantNamed(designation);
    const fast = fastSaturationOf(designation);
    const { components, moleFractions } = refrigerant;
    const meanK = components.reduce((sum, fluid, i) => sum + moleFractions[i] * fluid.criticalK, 0);
    const random = new Random(7);
    const places = [
      ...Array.from({ length: 101 }, (_, i) => 0.8 * meanK + (i - 50) / 1000),
      ...Array.from({ length: 200 }, () => random.uniform(190, 0.93 * meanK)),
    ];
    for (const temperatureK of places) {
      const { bubblePa, dewPa, liquidKgPerM3, vapourKgPerM3 } = solved(refrigerant, temperatureK);
      expect(Math.abs(fast.bubbleK(bubblePa) - temperatureK)).toBeLessThan(3e-3);
      expect(Math.abs(fast.dewK(dewPa) - temperatureK)).toBeLessThan(3e-3);
      expect(Math.abs(fast.liquidKgPerM3(temperatureK) / liquidKgPerM3 - 1)).toBeLessThan(3e-5);
      expect(Math.abs(fast.vapourKgPerM3(temperatureK) / vapourKgPerM3 - 1)).toBeLessThan(3e-4);
    }
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
    expect(!saturation.converged && saturation.reason).toBe('end-of-curve');
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
