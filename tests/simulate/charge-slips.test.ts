import { describe, expect, test } from 'vitest';
import { type ChargeSlip, lineChargeKg, slippedChargesKg } from '../../src/simulate/charge-slips.ts';
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

const [line] = system.lines;

describe('lineChargeKg by true lengths', () => {
  test('rests on the true length where it is another one', () => {
    const taped: System = { ...system, lines: [{ ...line, trueLengthM: 20.4 }, line] };
    expect(lineChargeKg(taped)).toBeCloseTo(1.2, 12);
    expect(lineChargeKg(taped, 'true')).toBeCloseTo(1.22, 12);
  });
});

describe('slippedChargesKg', () => {
  // By hand from the numbers above; bores 0.190, 0.2485, 0.311 and 0.436 in, liquid 989.2 kg/m³ for R-410A and 903.9, 927.9,
  // 1138.2 and 1078.8 kg/m³ for R-32, R-454B, R-22 and R-407C.
  const bySize = [0.19, 0.2485, 0.436].map((inches) => 0.6 * (inches / 0.311) ** 2);
  const byRefrigerant = [903.9, 927.9, 1138.2, 1078.8].map((density) => (0.6 * density) / 989.2);
  const onTop = (masses: number[]) => masses.map((kg) => 3 + kg);
  test.each<[ChargeSlip, number[], number[]]>([
    ['line-ignored', [0], [3]],
    ['from-zero', [1], [4]],
    ['other-line-size', bySize, onTop(bySize)],
    ['other-refrigerant', byRefrigerant, onTop(byRefrigerant)],
    ['kg-pound', [0.6 * POUND_KG, 0.6 / POUND_KG], [3.6 * POUND_KG]],
    ['hose-residual', [0.57, 0.63], [3.57, 3.63]],
    ['factory-again', [3.6], [6.6]],
  ])('%s: %j kg into a pre-charged system, %j kg into an empty one', (slip, preChargedKg, emptyKg) => {
    const digits = (masses: number[]) => masses.map((kg) => kg.toFixed(6));
    expect(digits(slippedChargesKg(slip, 0.6, system, true, 0.03))).toEqual(digits(preChargedKg));
    expect(digits(slippedChargesKg(slip, 3.6, system, false, 0.03))).toEqual(digits(emptyKg));
  });

  test('the adder of another size is of one that is common and near', () => {
    const thin: System = { ...system, lines: [{ ...line, size: 6.35 }] };
    const ratios = slippedChargesKg('other-line-size', 0.6, thin, true, 0).map((kg) => kg / 0.6);
    expect(ratios).toEqual([(0.2485 / 0.19) ** 2, (0.311 / 0.19) ** 2].map((ratio) => expect.closeTo(ratio, 6)));
  });

  test('pounds are read as kilograms only where that is less than 1.5 kg more', () => {
    expect(slippedChargesKg('kg-pound', 1.24, system, true, 0)).toHaveLength(2);
    expect(slippedChargesKg('kg-pound', 1.25, system, true, 0)).toHaveLength(1);
  });

  test.each([
    ['5 lb 6 oz', 5 + 6 / 16, 5.6],
    ['5.6 oz', 5.6 / 16, 0.56],
    ['1 lb 12 oz', 1 + 12 / 16, 1.12],
  ])('%s (%d lb) put in as %d lb', (_, pounds, putInPounds) => {
    const [kg, ...others] = slippedChargesKg('ounce-tenth-pound', pounds * POUND_KG, system, true, 0);
    expect(kg).toBeCloseTo(putInPounds * POUND_KG, 9);
    expect(others).toEqual([]);
  });
});
