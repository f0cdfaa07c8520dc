import { monthsEach, type TimeGrain } from './coarse-rows.ts';

/**
 * Every month, quarter or year from the first to the last, those that do not occur too.
 *
 * @param months YYYY-MM, first months of quarters or years where that is the grain; at least one
 * @example timesBetween(['2026-03', '2026-01'], 'month') // ['2026-01', '2026-02', '2026-03']
 */
export function timesBetween(months: readonly string[], grain: TimeGrain): string[] {
  const each = monthsEach[grain];
  const numbers = months.map((month) => (12 * Number(month.slice(0, 4)) + Number(month.slice(5, 7)) - 1) / each);
  const first = numbers.reduce((least, number) => Math.min(least, number));
  const last = numbers.reduce((most, number) => Math.max(most, number));
  return Array.from({ length: last - first + 1 }, (_, index) => {
    const number = (first + index) * each;
    return `${String(Math.floor(number / 12)).padStart(4, '0')}-${String((number % 12) + 1).padStart(2, '0')}`;
  });
}
