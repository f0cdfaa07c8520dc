/**
 * A limit to five figures or whole numbers for a message, so that what the message allows is allowed.
 *
 * For a lower limit; an upper one is `-roundedUp(-limit)`.
 *
 * @returns the limit, or a little above it
 * @example roundedUp(-14.69595) // -14.695
 */
export function roundedUp(limit: number): number {
  const scale = 10 ** Math.max(0, 4 - Math.floor(Math.log10(Math.abs(limit) || 1)));
  // Twelve figures, lest 114.99999999999999 fall to 114.
  return Math.ceil(Number((limit * scale).toPrecision(12))) / scale;
}
