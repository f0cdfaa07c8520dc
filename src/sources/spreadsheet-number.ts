/** Days from the first of January 1970 back to the day 0 of spreadsheets, 1899-12-30. */
const dayZero = 25_569;

/**
 * A spreadsheet's day number as seconds since 1970, on whatever clock the sheet was kept.
 *
 * @param days since 1899-12-30; the fraction is the time of day
 * @returns seconds, to the millisecond
 * @example spreadsheetSeconds(46087.5) // 1772798400, 2026-03-06 12:00:00
 */
export function spreadsheetSeconds(days: number): number {
  return Math.round((days - dayZero) * 86_400_000) / 1000;
}
