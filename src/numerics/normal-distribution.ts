/**
 * Share of a normal distribution below a value.
 *
 * @param z value in standard deviations from the mean
 * @returns 0 to 1
 *
 * Source: `abramowitz-stegun`, 26.2.17. Accuracy: within 7.5e-8 by the source.
 *
 * @example
 * normalShareBelow(1) // 0.8413447
 */
export function normalShareBelow(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const polynomial = t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const above = (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) * polynomial;
  return z >= 0 ? 1 - above : above;
}

/** A normal distribution in a mixture. */
export interface NormalPart {
  readonly weight: number;
  readonly mean: number;
  /** Above 0. */
  readonly deviation: number;
}
