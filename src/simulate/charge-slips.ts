import { adderRefrigerants, boreAreaRatio, densityRatio, type LineSize, lineSizes } from './line-adders.ts';
import type { System } from './system.ts';

export type ChargeSlip =
  | 'line-ignored'
  | 'from-zero'
  | 'other-line-size'
  | 'other-refrigerant'
  | 'ounce-tenth-pound'
  | 'kg-pound'
  | 'hose-residual'
  | 'factory-again';

const POUND_KG = 0.45359237;

/** What the lines want beyond the factory charge [kg]: by their lengths as recorded, or as they truly are. */
export function lineChargeKg(system: System, lengths: 'recorded' | 'true' = 'recorded'): number {
  return system.lines.reduce((sum, { lengthM, trueLengthM = lengthM, coveredM, adderKgPerM }) => {
    return sum + Math.max(0, (lengths === 'true' ? trueLengthM : lengthM) - coveredM) * adderKgPerM;
  }, 0);
}

/** Pounds and whole ounces, "5 lb 6 oz", read as decimal pounds, 5.6; below a pound, 5.6 oz read as 0.56 lb. */
function ounceAsTenthPoundKg(kg: number): number {
  const pounds = Math.floor(kg / POUND_KG);
  const ounces = ((kg / POUND_KG) % 1) * 16;
  if (pounds === 0) return (Math.round(ounces * 10) / 10 / 10) * POUND_KG;
  const whole = Math.round(ounces);
  return (pounds + (whole < 10 ? whole / 10 : whole / 100)) * POUND_KG;
}

/**
 * What a slip makes of the mass that a job should put into the system.
 *
 * @param rightKg mass that should go in [kg]
 * @param system the system
 * @param preCharged whether the factory charge is already in it
 * @param residualKg refrigerant left in the hoses [kg]
 * @returns masses aimed at in its stead [kg], one for each way in which the slip is made, all as likely
 */
export function slippedChargesKg(
  slip: ChargeSlip,
  rightKg: number,
  system: System,
  preCharged: boolean,
  residualKg: number,
): number[] {
  const ownKg = preCharged ? 0 : system.factoryChargeKg;
  const size = (system.lines[0] as { size: LineSize }).size;
  switch (slip) {
    case 'line-ignored':
      return [ownKg];
    case 'from-zero':
      return [ownKg + system.lines.reduce((sum, line) => sum + line.lengthM * line.adderKgPerM, 0)];
    case 'other-line-size':
      return othersNear(size).map((other) => ownKg + lineChargeKg(system) * boreAreaRatio(other, size));
    case 'other-refrigerant':
      return adderRefrigerants
        .filter((other) => other !== system.refrigerant)
        .map((other) => ownKg + lineChargeKg(system) * densityRatio(other, system.refrigerant));
    case 'ounce-tenth-pound':
      return [ounceAsTenthPoundKg(rightKg)];
    case 'kg-pound': {
      const poundsAsKg = rightKg / POUND_KG;
      // Nobody goes on for long past what a unit of that size takes.
      return poundsAsKg - rightKg < 1.5 ? [rightKg * POUND_KG, poundsAsKg] : [rightKg * POUND_KG];
    }
    case 'hose-residual':
      // Not counted: that much stays in the hose. Counted twice: that much too much goes in.
      return [Math.max(0, rightKg - residualKg), rightKg + residualKg];
    case 'factory-again':
      return [rightKg + system.factoryChargeKg];
  }
}

/** The sizes one or two places away on the list of common ones. */
function othersNear(size: LineSize) {
  const place = lineSizes.indexOf(size);
  return lineSizes.filter((other, index) => other !== size && Math.abs(index - place) <= 2);
}
