import { wilsonInterval } from '../numerics/wilson-interval.ts';

/**
 * A share as people say it, whole percent; a dash where nothing was counted.
 *
 * @example percentText(0.234) // '23%'
 */
export function percentText(share: number | null): string {
  return share === null ? '–' : `${Math.round(100 * share)}%`;
}

/**
 * A small share, with a place more below ten percent; a dash where nothing was counted.
 *
 * @example fineShareText(0.0123) // '1.2%'
 */
export function fineShareText(share: number | null): string {
  return share === null || share >= 0.0995 ? percentText(share) : `${(100 * share).toFixed(1)}%`;
}

/**
 * Counts with their share and 95% Wilson interval.
 *
 * @example shareText(4, 20) // '4 of 20 (20%, 8–42%)'
 */
export function shareText(flagged: number, judged: number): string {
  if (judged === 0) return 'none judged';
  const { low, high } = wilsonInterval(flagged, judged);
  return `${groupedCount(flagged)} of ${groupedCount(judged)} (${percentText(flagged / judged)}, ${Math.round(100 * low)}–${percentText(high)})`;
}

/**
 * A count with its noun.
 *
 * @example countText(1, 'job') // '1 job'
 */
export function countText(count: number, noun: string, plural = `${noun}s`): string {
  return `${groupedCount(count)} ${count === 1 ? noun : plural}`;
}

/**
 * A count with its thousands apart, by a space that does not break.
 *
 * @example groupedCount(12345) // '12 345' with U+00A0
 */
export function groupedCount(count: number): string {
  return String(count).replace(/\B(?=(\d{3})+(?!\d))/g, '\u00a0');
}

/**
 * A sum in the shop's currency, in whole units; a dash where none is known.
 *
 * @example moneyText(-3.2) // '−3'
 */
export function moneyText(cost: number | null): string {
  if (cost === null) return '–';
  const whole = Math.round(Math.abs(cost));
  return `${cost < 0 && whole > 0 ? '−' : ''}${groupedCount(whole)}`;
}
