import type { Random } from '../../numerics/random.ts';

/** How a figure is written wrong, and how often: invented. */
const slips = { neighbours: 0.4, digit: 0.4, point: 0.2 } as const;

/**
 * A figure as a slip of the hand leaves it: two neighbouring digits swapped, one digit wrong, or the decimal point one place
 * off. Never the figure itself.
 *
 * @param kg what the scale shows [kg]
 * @param decimals how many the scale shows
 */
export function slippedFigureKg(random: Random, kg: number, decimals: number): number {
  const how = random.weighted(slips);
  const text = Math.abs(kg).toFixed(decimals).replace('.', '');
  const sign = kg < 0 ? -1 : 1;
  const written = (digits: string, places = decimals) =>
    Number(((sign * Number(digits)) / 10 ** places).toFixed(places)) + 0;
  if (how === 'point' && kg !== 0) return written(text, decimals + (random.chance(0.5) ? 1 : -1));
  const unlike = text
    .split('')
    .flatMap((digit, place) => (place + 1 < text.length && digit !== text[place + 1] ? [place] : []));
  if (how === 'neighbours' && unlike.length > 0) {
    const place = random.choice(unlike);
    return written(text.slice(0, place) + text[place + 1] + text[place] + text.slice(place + 2));
  }
  const place = random.integer(0, text.length - 1);
  const digit = (Number(text[place]) + random.integer(1, 9)) % 10;
  return written(text.slice(0, place) + String(digit) + text.slice(place + 1));
}
