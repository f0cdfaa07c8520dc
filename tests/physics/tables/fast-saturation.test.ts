import { describe, expect, test, vi } from 'vitest';
import type * as PhaseStates from '../../../src/physics/equations/phase-state.ts';
import type { DensityCurve } from '../../../src/physics/tables/saturation-table.ts';
import { saturationTables } from '../../../src/physics/tables/saturation-tables.ts';

// Counts what is solved, so that loading and reading can be held to nothing.
const { states } = vi.hoisted(() => ({ states: { count: 0 } }));
vi.mock('../../../src/physics/equations/phase-state.ts', async (importOriginal) => {
  const original = await importOriginal<typeof PhaseStates>();
  const phaseState: typeof original.phaseState = (...all) => {
    states.count += 1;
    return original.phaseState(...all);
  };
  return { ...original, phaseState };
});
const {
  fastSaturationOf,
  FastSaturation,
  makeSaturationTable,
  composeRefrigerant,
  refrigerantNamed,
  refrigerantDesignations,
} = await import('../../../src/physics/index.ts');
const { PhaseBoundary } = await import('../../../src/physics/equations/phase-boundary.ts');

const places = 60;

describe('loading', () => {
  test('and reading solves nothing', () => {
    const solvedBefore = states.count;
    const read = fastSaturationOf('R-410A');
    expect([read.dewK(1e6), read.bubbleK(1e6), read.liquidKgPerM3(300), read.vapourKgPerM3(300)]).not.toContain(
      Number.NaN,
    );
    expect([solvedBefore, states.count]).toEqual([0, 0]);
    makeSaturationTable(refrigerantNamed('R-32'));
    expect(states.count).toBeGreaterThan(1000);
  });
});

describe.each(saturationTables)('the table of $designation', (table) => {
  const read = new FastSaturation(table);
  const refrigerant = refrigerantNamed(table.designation);
  const { bubble, dew = bubble } = table;

  test.each([
    ['bubble', bubble, (pressurePa: number) => read.bubbleK(pressurePa)],
    ['dew', dew, (pressurePa: number) => read.dewK(pressurePa)],
  ] as const)(
    'reads %s points within 0.002 K of the equations between its entries, 0.0001 K up to 90 % of its end',
    (kind, curve, temperature) => {
      const boundary = new PhaseBoundary(refrigerant, kind);
      const endK = curve.temperaturesK.at(-1) ?? Number.NaN;
      for (let i = 0; i < places; i += 1) {
        const pressurePa = curve.lowPa * (curve.highPa / curve.lowPa) ** ((i + 0.37) / places);
        const point = boundary.at('pressurePa', pressurePa);
        if (!point.converged) throw new Error(`${kind} point at ${pressurePa} Pa`);
        const tolerance = point.temperatureK < 0.9 * endK ? 1e-4 : 2e-3;
        expect(Math.abs(temperature(pressurePa) - point.temperatureK)).toBeLessThan(tolerance);
      }
    },
  );

  test.each([
    ['bubble', table.liquid, (temperatureK: number) => read.liquidKgPerM3(temperatureK)],
    ['dew', table.vapour, (temperatureK: number) => read.vapourKgPerM3(temperatureK)],
  ] as const)(
    'reads densities at the %s point within 0.003 %% of the equations between its entries, 0.03 %% below −50 °C',
    (kind, curve, density) => {
      const boundary = new PhaseBoundary(refrigerant, kind);
      for (let i = 0; i < places; i += 1) {
        const temperatureK = curve.endK - curve.farK + ((curve.farK - curve.nearK) * (i + 0.37)) / places;
        const point = boundary.at('temperatureK', temperatureK);
        if (!point.converged) throw new Error(`${kind} point at ${temperatureK} K`);
        const tolerance = temperatureK > 223.15 ? 3e-5 : 3e-4;
        expect(Math.abs(density(temperatureK) / point.densityKgPerM3 - 1)).toBeLessThan(tolerance);
      }
    },
  );

  test('is monotone', () => {
    const steps = 20_000;
    const rises = (from: number, to: number, value: (place: number) => number) => {
      let before = value(from);
      let falls = 0;
      for (let i = 1; i <= steps; i += 1) {
        const here = value(from + ((to - from) * i) / steps);
        if (!(here > before)) falls += 1;
        before = here;
      }
      return falls === 0;
    };
    const inside = (low: number, high: number) => [low * (1 + 1e-9), high * (1 - 1e-9)] as const;
    const insideK = ({ endK, nearK, farK }: DensityCurve) => inside(endK - farK, endK - nearK);
    expect(rises(...inside(bubble.lowPa, bubble.highPa), (pa) => read.bubbleK(pa))).toBe(true);
    expect(rises(...inside(dew.lowPa, dew.highPa), (pa) => read.dewK(pa))).toBe(true);
    expect(rises(...insideK(table.vapour), (kelvin) => read.vapourKgPerM3(kelvin))).toBe(true);
    expect(rises(...insideK(table.liquid), (kelvin) => -read.liquidKgPerM3(kelvin))).toBe(true);
  });

  test('reaches from −70 °C or colder to 5 K below its end or warmer, and gives no number outside', () => {
    expect(dew.temperaturesK[0]).toBeLessThan(203.15);
    expect(dew.temperaturesK.at(-1)).toBeGreaterThan(table.vapour.endK - 5);
    expect(bubble.temperaturesK.at(-1)).toBeGreaterThan(table.liquid.endK - 5);
    expect(read.dewK(dew.lowPa * 0.999)).toBeNaN();
    expect(read.dewK(dew.highPa * 1.001)).toBeNaN();
    expect(read.bubbleK(bubble.lowPa * 0.999)).toBeNaN();
    expect(read.bubbleK(bubble.highPa * 1.001)).toBeNaN();
    for (const pressurePa of [0, -5, Number.NaN, Number.POSITIVE_INFINITY]) expect(read.dewK(pressurePa)).toBeNaN();
    expect(read.liquidKgPerM3(table.liquid.endK - table.liquid.farK - 0.01)).toBeNaN();
    expect(read.liquidKgPerM3(table.liquid.endK - table.liquid.nearK + 0.01)).toBeNaN();
    expect(read.vapourKgPerM3(table.vapour.endK + 10)).toBeNaN();
    expect(read.vapourKgPerM3(Number.NaN)).toBeNaN();
  });
});

describe('fastSaturationOf', () => {
  test('has a table for every refrigerant with a name', () => {
    expect(saturationTables.map(({ designation }) => designation)).toEqual(refrigerantDesignations);
  });

  test('refuses what has none', () => {
    expect(() => fastSaturationOf('R-11')).toThrow('no equation of state for "R-11"; known: R-22, R-32');
  });

  test('a blend of one’s own gets a table that reads as the equations do', () => {
    const blend = composeRefrigerant('mine', { 'R-32': 0.2, 'R-125': 0.4, 'R-134a': 0.4 });
    const read = new FastSaturation(makeSaturationTable(blend));
    const point = new PhaseBoundary(blend, 'dew').at('pressurePa', 612345.6);
    expect(point.converged && Math.abs(read.dewK(612345.6) - point.temperatureK)).toBeLessThan(1e-4);
  });
});
