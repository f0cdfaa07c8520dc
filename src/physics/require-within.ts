import { DryholdError } from '../errors.ts';

/** What a quantity may be: above one bound, and from one to another; made by `limitsOf`. */
export interface Limits {
  /** Its name and unit, as an error says it. */
  readonly quantity: string;
  readonly above: number;
  readonly from: number;
  readonly to: number;
}

/** Limits of a quantity, name and unit; where a bound is left out, any finite number. All of one shape, for speed. */
export function limitsOf(quantity: string, bounds: { above?: number; from?: number; to?: number } = {}): Limits {
  const { above = Number.NEGATIVE_INFINITY, from = -Number.MAX_VALUE, to = Number.MAX_VALUE } = bounds;
  return { quantity, above, from, to };
}

/**
 * Refuses a number that a formula does not hold for.
 *
 * For what is wrong beyond doubt: a length below 0, a molar mass in g/mol. Costs three comparisons.
 *
 * @param limits name, unit and bounds of the quantity
 * @param value the number; NaN is never within
 * @throws DryholdError `out-of-range` with the quantity, its bound and the value
 */
export function requireWithin(limits: Limits, value: number): void {
  if (!(value > limits.above && value >= limits.from && value <= limits.to)) throw outOfRange(limits, value);
}

function outOfRange(limits: Limits, value: number): DryholdError {
  return new DryholdError('out-of-range', { quantity: limits.quantity, bound: boundText(limits), received: value });
}

function boundText({ above, from, to }: Limits): string {
  const low = [];
  if (Number.isFinite(above)) low.push(`above ${above}`);
  if (from > -Number.MAX_VALUE) low.push(to < Number.MAX_VALUE ? `${from} to ${to}` : `${from} or more`);
  else if (to < Number.MAX_VALUE) low.push(`at most ${to}`);
  return [...low, ...(to === Number.MAX_VALUE ? ['finite'] : [])].join(' and ');
}
