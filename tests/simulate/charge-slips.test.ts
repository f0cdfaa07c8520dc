import { describe, expect, test } from 'vitest';
import { type ChargeSlip, lineChargeKg, slippedChargeKg } from '../../src/simulate/charge-slips.ts';
import type { System } from '../../src/simulate/system.ts';

const POUND_KG = 0.45359237;

// 20 m of line, 8 m of it covered, 0.05 kg/m: 12 m × 0.05 kg/m = 0.6 kg beyond a factory charge of 3 kg.
const system: System = {
  type: 'ducted',
  refrigerant: 'R-410A',
  ratedCoolingW: 10_500,
  metering: 'txv',
  compressor: 'single',
  factoryChargeKg: 3,
  lines: [{ size: 9.52, suctionMm: 19.05, lengthM: 20, coveredM: 8, adderKgPerM: 0.05 }],
  testedM3: 0.01,
  circuitM3: 0.015,
};

describe('lineChargeKg', () => {
  test('counts what lies beyond the covered length, line by line, and never less than nothing', () => {
    expect(lineChargeKg(system)).toBeCloseTo(0.6, 12);
    const [line] = system.lines;
    const short = { ...line, lengthM: 5 };
    expect(lineChargeKg({ ...system, lines: [short] })).toBe(0);
    expect(lineChargeKg({ ...system, lines: [line, short, line] })).toBeCloseTo(1.2, 12);
  });
});

describe('slippedChargeKg', () => {
  // By hand from the numbers above; bores 0.311 and 0.190 in, liquid 903.9 and 989.2 kg/m³ for R-32 and R-410A.
  test.each<[ChargeSlip, number, number]>([
    ['line-ignored', 0, 3],
    ['from-zero', 1, 4],
    ['other-line-size', 0.6 * (0.19 / 0.311) ** 2, 3 + 0.6 * (0.19 / 0.311) ** 2],
    ['other-refrigerant', (0.6 * 903.9) / 989.2, 3 + (0.6 * 903.9) / 989.2],
    ['kg-pound', 0.6 * POUND_KG, 3.6 * POUND_KG],
    ['hose-residual', 0.57, 3.57],
    ['factory-again', 3.6, 6.6],
  ])('%s: %d kg into a pre-charged system, %d kg into an empty one', (slip, preChargedKg, emptyKg) => {
    expect(slippedChargeKg(slip, 0.6, system, true, 0.03)).toBeCloseTo(preChargedKg, 9);
    expect(slippedChargeKg(slip, 3.6, system, false, 0.03)).toBeCloseTo(emptyKg, 9);
  });

  test.each([
    ['5 lb 6 oz', 5 + 6 / 16, 5.6],
    ['5.6 oz', 5.6 / 16, 0.56],
    ['1 lb 12 oz', 1 + 12 / 16, 1.12],
  ])('%s (%d lb) put in as %d lb', (_, pounds, putInPounds) => {
    expect(slippedChargeKg('ounce-tenth-pound', pounds * POUND_KG, system, true, 0)).toBeCloseTo(
      putInPounds * POUND_KG,
      9,
    );
  });
});
