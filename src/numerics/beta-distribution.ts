import { logGamma } from './gamma-function.ts';

const mostTerms = 20_000;
const smallest = 1e-300;
const mostSteps = 1100;

/**
 * Natural logarithm of the beta function of two numbers above 0.
 *
 * @example logBeta(2, 3) // -2.4849066
 */
export function logBeta(a: number, b: number): number {
  return logGamma(a) + logGamma(b) - logGamma(a + b);
}

/**
 * Share of a beta distribution below a value: the regularised incomplete beta function.
 *
 * @param x from 0 to 1; beyond, 0 or 1
 * @param a above 0; @param b above 0
 * @returns 0 to 1
 *
 * Source: `dlmf`, 8.17.22 (continued fraction), by Lentz' method. Accuracy: 1e-12 for a and b up to 1e5.
 *
 * @example betaShareBelow(0.25, 2, 2) // 0.15625
 */
export function betaShareBelow(x: number, a: number, b: number): number {
  if (!(a > 0 && b > 0) || Number.isNaN(x)) return Number.NaN;
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  // The fraction ends soonest on this side of the mean.
  if (x > (a + 1) / (a + b + 2)) return 1 - betaShareBelow(1 - x, b, a);
  const front = Math.exp(a * Math.log(x) + b * Math.log1p(-x) - logBeta(a, b)) / a;
  let [c, d] = [1, kept(1 - ((a + b) * x) / (a + 1))];
  d = 1 / d;
  let fraction = d;
  for (let m = 1; m <= mostTerms; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / kept(1 + even * d);
    c = kept(1 + even / c);
    fraction *= c * d;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / kept(1 + odd * d);
    c = kept(1 + odd / c);
    fraction *= c * d;
    if (Math.abs(c * d - 1) < 1e-15) break;
  }
  return front * fraction;
}

/** A divisor that is never 0. */
function kept(value: number): number {
  return Math.abs(value) < smallest ? smallest : value;
}

/**
 * A quantile of a beta distribution.
 *
 * @param share from 0 to 1
 * @param a above 0; @param b above 0
 *
 * Accuracy: that of `betaShareBelow`.
 *
 * @example betaQuantile(0.5, 2, 2) // 0.5
 */
export function betaQuantile(share: number, a: number, b: number): number {
  if (!(a > 0 && b > 0)) return Number.NaN;
  if (share <= 0) return 0;
  if (share >= 1) return 1;
  // Newton's method, halving what is left where it leads out of it.
  const front = logBeta(a, b);
  let [low, high, x] = [0, 1, a / (a + b)];
  for (let step = 0; step < mostSteps; step += 1) {
    const beyond = betaShareBelow(x, a, b) - share;
    if (beyond > 0) high = x;
    else low = x;
    const density = Math.exp((a - 1) * Math.log(x) + (b - 1) * Math.log1p(-x) - front);
    const newton = x - beyond / density;
    const next = newton > low && newton < high ? newton : (low + high) / 2;
    if (Math.abs(next - x) <= 1e-14 * x) return next;
    x = next;
  }
  return x;
}
