import { expect, test } from 'vitest';
import { leakUnderPressure } from '../../src/simulate/leak-under-pressure.ts';
import type { LeakSort } from '../../src/simulate/standing-test.ts';

// By hand: 0.01 Pa/s in 4 L at 293.15 K is 4e-5 Pa·m³/s ÷ (8.3145 × 293.15) = 1.64111e-8 mol/s of air. Under 30
// atmospheres: 29, 30 and 899 times that; √(28.96/28.01) = 1.01682, 18.2/17.6 = 1.03409.
test.each<[LeakSort, number]>([
  ['molecular', 1.64111e-8 * 29 * 1.01682],
  ['hole', 1.64111e-8 * 30 * 1.01682],
  ['laminar', 1.64111e-8 * 899 * 1.03409],
])('through a %s opening %d mol/s of nitrogen are lost', (sort, molPerS) => {
  const lost = (atmospheres: number, leakPaPerS = 0.01) =>
    leakUnderPressure({
      leakPaPerS,
      volumeM3: 0.004,
      temperatureK: 293.15,
      atmospherePa: 100_000,
      pressurePa: atmospheres * 100_000,
      sort,
    });
  expect(Math.abs(lost(30) / molPerS - 1)).toBeLessThan(1e-4);
  expect(lost(30, 0)).toBe(0);
  expect(lost(40)).toBeGreaterThan(lost(30));
});
