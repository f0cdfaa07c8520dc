import { describe, expect, test } from 'vitest';
import type { CycleOptions, SteadyCycle } from '../../../src/simulate/run/cycle-options.ts';
import { steadyCycle } from '../../../src/simulate/run/refrigeration-cycle.ts';

const refrigerants = ['R-410A', 'R-32', 'R-454B', 'R-407C'] as const;
const meterings = ['fixed', 'txv', 'eev'] as const;
const rating: CycleOptions = {
  refrigerant: 'R-410A',
  ratedCoolingW: 10_000,
  metering: 'txv',
  outdoorC: 35,
  indoorC: 26.7,
  indoorWetBulbC: 19.4,
};
const run = (options: Partial<CycleOptions> = {}) => steadyCycle({ ...rating, ...options });
const celsius = (fahrenheit: number) => (fahrenheit - 32) / 1.8;

describe('steadyCycle', () => {
  test.each(refrigerants.flatMap((refrigerant) => meterings.map((metering) => [refrigerant, metering] as const)))(
    '%s with a %s shows ordinary figures at rating',
    (refrigerant, metering) => {
      const cycle = run({ refrigerant, metering });
      expect(cycle.evaporatingK - 273.15).toBeGreaterThan(5);
      expect(cycle.evaporatingK - 273.15).toBeLessThan(10);
      expect(cycle.condensingK - 308.15).toBeGreaterThan(8);
      expect(cycle.condensingK - 308.15).toBeLessThan(14);
      expect(cycle.subcoolingK).toBeCloseTo(6, 1);
      expect(cycle.superheatK).toBeGreaterThan(5.5);
      expect(cycle.superheatK).toBeLessThan(8);
      expect(cycle.returnC - cycle.supplyC).toBeGreaterThan(8.5);
      expect(cycle.returnC - cycle.supplyC).toBeLessThan(12);
      expect(Math.abs(cycle.coolingW / 10_000 - 1)).toBeLessThan(0.01);
      expect(cycle.coolingW / cycle.compressorW).toBeGreaterThan(3);
      expect(cycle.coolingW / cycle.compressorW).toBeLessThan(5);
    },
  );

  /** Target superheat [°F] at the suction service valve, common to the manuals of two makers; indoor wet bulb 60 to 70 °F. */
  const targets: Record<number, (number | undefined)[]> = {
    75: [12, 15, 18, 21, 24, 28],
    80: [8, 12, 15, 18, 21, 25],
    85: [undefined, 8, 11, 15, 19, 22],
    90: [undefined, 5, 9, 13, 16, 20],
    95: [undefined, undefined, 6, 10, 14, 18],
    100: [undefined, undefined, undefined, 8, 12, 15],
  };

  test.each(refrigerants)(
    'a fixed orifice with %s at the right charge comes within 2 K of the table',
    (refrigerant) => {
      const off = Object.entries(targets).flatMap(([outdoorF, row]) =>
        row.flatMap((targetF, index) => {
          if (targetF === undefined) return [];
          const indoorWetBulbC = celsius(60 + 2 * index);
          const { superheatK } = run({
            refrigerant,
            metering: 'fixed',
            outdoorC: celsius(Number(outdoorF)),
            indoorWetBulbC,
          });
          return superheatK - targetF / 1.8;
        }),
      );
      expect(off).toHaveLength(29);
      expect(Math.max(...off.map(Math.abs))).toBeLessThan(2);
      expect(Math.sqrt(off.reduce((sum, one) => sum + one * one, 0) / off.length)).toBeLessThan(1.4);
    },
  );

  test('low charge takes the subcooling, then raises the superheat: of a fixed orifice at once, of a valve late', () => {
    for (const metering of meterings) {
      const [right, little, less, least] = [1, 0.9, 0.75, 0.6].map((chargeRatio) => run({ metering, chargeRatio }));
      expect(little.subcoolingK).toBeLessThan(right.subcoolingK - 2);
      expect(less.subcoolingK).toBeCloseTo(0, 1);
      expect(less.outQuality).toBeGreaterThan(0);
      expect(least.liquidPa).toBeLessThan(right.liquidPa);
      expect(least.coolingW).toBeLessThan(0.85 * right.coolingW);
      if (metering === 'fixed') {
        expect(little.superheatK).toBeGreaterThan(right.superheatK + 2);
        expect(less.suctionPa).toBeLessThan(0.95 * right.suctionPa);
      } else expect(Math.abs(little.superheatK - right.superheatK)).toBeLessThan(0.3);
    }
    expect(run({ chargeRatio: 0.6 }).superheatK).toBeGreaterThan(run().superheatK + 4);
  });

  test('overcharge raises subcooling and head, and takes the superheat of a fixed orifice', () => {
    for (const metering of meterings) {
      const [right, much] = [1, 1.2].map((chargeRatio) => run({ metering, chargeRatio }));
      expect(much.subcoolingK).toBeGreaterThan(right.subcoolingK + 3);
      expect(much.liquidPa).toBeGreaterThan(1.04 * right.liquidPa);
      expect(much.compressorW).toBeGreaterThan(right.compressorW);
      if (metering === 'fixed') expect(much.superheatK).toBeLessThan(1);
      else expect(much.superheatK).toBeCloseTo(right.superheatK, 1);
    }
  });

  test('little air over the indoor coil lowers suction and supply, and the superheat of a fixed orifice', () => {
    for (const metering of meterings) {
      const [right, little] = [1, 0.65].map((airflowRatio) => run({ metering, airflowRatio }));
      expect(little.suctionPa).toBeLessThan(0.97 * right.suctionPa);
      expect(little.returnC - little.supplyC).toBeGreaterThan(right.returnC - right.supplyC + 2.5);
      expect(little.liquidPa).toBeLessThan(right.liquidPa);
      if (metering === 'fixed') expect(little.superheatK).toBeLessThan(right.superheatK - 3);
      else expect(Math.abs(little.superheatK - right.superheatK)).toBeLessThan(0.5);
    }
  });

  test('a blocked liquid line starves the coil while the liquid backs up', () => {
    for (const metering of meterings) {
      const [right, blocked] = [0, 0.9].map((restrictionRatio) => run({ metering, restrictionRatio }));
      expect(blocked.suctionPa).toBeLessThan(0.85 * right.suctionPa);
      expect(blocked.superheatK).toBeGreaterThan(right.superheatK + 8);
      expect(blocked.subcoolingK).toBeGreaterThan(right.subcoolingK);
      expect(blocked.liquidPa).toBeLessThan(right.liquidPa);
    }
  });

  test('air in the condenser raises head and apparent subcooling; the liquid itself is no colder', () => {
    for (const metering of meterings) {
      const [right, aired] = [0, 0.12].map((nonCondensableRatio) => run({ metering, nonCondensableRatio }));
      expect(aired.liquidPa).toBeGreaterThan(1.08 * right.liquidPa);
      expect(aired.subcoolingK).toBeGreaterThan(right.subcoolingK + 2);
      expect(aired.liquidLineK).toBeGreaterThan(right.liquidLineK - 0.1);
      expect(aired.compressorW).toBeGreaterThan(right.compressorW);
    }
  });

  test('little air over the outdoor coil raises the head', () => {
    expect(run({ outdoorAirflowRatio: 0.6 }).liquidPa).toBeGreaterThan(1.08 * run().liquidPa);
  });

  test('the wrong refrigerant shows in the pressures', () => {
    const wrong = run({ refrigerant: 'R-410A', madeFor: 'R-407C' });
    expect(wrong.suctionPa).toBeGreaterThan(1.2 * run({ refrigerant: 'R-407C' }).suctionPa);
    expect(run({ refrigerant: 'R-407C', madeFor: 'R-410A' }).suctionPa).toBeLessThan(0.8 * run().suctionPa);
  });

  test('metering outdoors leaves two phases in the liquid line', () => {
    const cycle = run({ metering: 'eev', meteringLocation: 'outdoor' });
    expect(cycle.subcoolingK).toBeNaN();
    expect(cycle.liquidPa).toBeLessThan(1.2 * cycle.suctionPa);
    expect(cycle.liquidLineK).toBeLessThan(288);
  });

  test('finds a state over the whole range, and more charge never lowers the head', () => {
    const faults: string[] = [];
    const isSound = (cycle: SteadyCycle) =>
      [cycle.suctionPa, cycle.liquidPa, cycle.supplyC, cycle.compressorW, cycle.subcoolingK].every(Number.isFinite) &&
      cycle.superheatK >= 0 &&
      cycle.superheatK < 45 &&
      cycle.subcoolingK > -0.01 - 6 * cycle.outQuality &&
      cycle.suctionPa < cycle.liquidPa &&
      cycle.supplyC < cycle.returnC &&
      cycle.coolingW > 0;
    for (const refrigerant of refrigerants) {
      for (const metering of ['fixed', 'txv'] as const) {
        for (const outdoorC of [13, 24, 35, 45]) {
          for (const airflowRatio of [0.5, 0.8, 1.1]) {
            let before = 0;
            for (const chargeRatio of [0.6, 0.8, 1, 1.2, 1.4]) {
              const cycle = run({ refrigerant, metering, outdoorC, airflowRatio, chargeRatio });
              if (!isSound(cycle) || cycle.liquidPa < before * 0.9999) {
                faults.push([refrigerant, metering, outdoorC, airflowRatio, chargeRatio].join(' '));
              }
              before = cycle.liquidPa;
            }
          }
        }
      }
    }
    expect(faults).toEqual([]);
  });
});
