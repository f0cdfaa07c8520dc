import { DryholdError } from '../errors.ts';

/** Days over which a leak rate is told. */
export const rateDays = 365;

/**
 * Leak rate by the annualising method: what was added as a share of the full charge, as if it went on for a year.
 *
 * @param addedKg for one leak, in one addition or several [kg], 0 or more
 * @param fullChargeKg [kg], above 0
 * @param days since refrigerant was added last, above 0; more than 365 count as 365
 * @returns [ratio of the full charge a year]
 * @throws DryholdError `out-of-range`
 *
 * Source: `40-cfr-82-152`, and with the same arithmetic `40-cfr-84-102`. Accuracy: reproduces `leak-rate-examples`.
 *
 * @example annualisedRate(8, 100, 400) // 0.08
 */
export function annualisedRate(addedKg: number, fullChargeKg: number, days: number): number {
  assertPositive('days since refrigerant was added last', days);
  return (sharePut(addedKg, fullChargeKg) * rateDays) / Math.min(days, rateDays);
}

/**
 * Leak rate by the rolling average: what was added over the last 365 days, or since the last successful follow-up verification if that
 * is less long ago, as a share of the full charge.
 *
 * @param addedKg in all over those days [kg], 0 or more
 * @param fullChargeKg [kg], above 0
 * @returns [ratio of the full charge]
 * @throws DryholdError `out-of-range`
 *
 * Source: as `annualisedRate`.
 *
 * @example rollingRate(5 + 10 + 8, 200) // 0.115
 */
export function rollingRate(addedKg: number, fullChargeKg: number): number {
  return sharePut(addedKg, fullChargeKg);
}

/** Ratios that differ by less are the same: what a computer makes of tenths of a kilogram. */
const sameRatio = 1e-9;

/**
 * Whether a leak rate is over its trigger; one that is just as much is not.
 *
 * @example isOverTrigger((0.1 + 1.1) / 12, 0.1) // false
 */
export function isOverTrigger(rate: number, trigger: number): boolean {
  return rate > trigger + sameRatio;
}

/**
 * Whether a share is as much as a threshold, or more.
 *
 * @example reachesRatio(0.1 + 0.2, 0.3) // true
 */
export function reachesRatio(share: number, threshold: number): boolean {
  return share >= threshold - sameRatio;
}

function sharePut(addedKg: number, fullChargeKg: number): number {
  if (!(addedKg >= 0))
    throw new DryholdError('out-of-range', { quantity: 'added mass', bound: '0 or more', received: addedKg });
  assertPositive('full charge', fullChargeKg);
  return addedKg / fullChargeKg;
}

function assertPositive(quantity: string, received: number): void {
  if (!(received > 0)) throw new DryholdError('out-of-range', { quantity, bound: 'above 0', received });
}
