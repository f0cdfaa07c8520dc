import { describe, expect, test } from 'vitest';
import { Random } from '../../../src/numerics/random.ts';
import { crews } from '../../../src/simulate/crews.ts';
import { drawHoseContentKg } from '../../../src/simulate/scale/hose-content.ts';

const random = new Random(4);
const refrigerants = ['R-410A', 'R-32', 'R-454B', 'R-407C'];

describe('drawHoseContentKg', () => {
  test('liquid: 10 to 75 g in the hoses of the crews; vapour: a few grams', () => {
    for (const { chargingHose } of crews) {
      for (const refrigerant of refrigerants) {
        for (const temperatureK of [277, 293, 311]) {
          const grams = 1000 * drawHoseContentKg(random, chargingHose, refrigerant, temperatureK);
          const [least, most] = chargingHose.phase === 'liquid' ? [10, 75] : [1, 7];
          expect(grams).toBeGreaterThan(least);
          expect(grams).toBeLessThan(most);
        }
      }
    }
  });

  test('a hose of 4.8 mm and 1 m holds 18.096 mL: 19.6 g of R-410A at 20 °C, 7 % less to 3 % more', () => {
    // Saturated liquid at 20 °C, 1083 kg/m³.
    const grams = Array.from({ length: 200 }, () => {
      return 1000 * drawHoseContentKg(random, { boreMm: 4.8, lengthM: 1, phase: 'liquid' }, 'R-410A', 293.15);
    });
    expect(Math.min(...grams)).toBeGreaterThan(19.6 * 0.925);
    expect(Math.max(...grams)).toBeLessThan(19.6 * 1.035);
  });
});
