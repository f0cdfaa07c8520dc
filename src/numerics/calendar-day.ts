const dayMs = 86_400_000;

/**
 * Days since 1970 of an ISO 8601 date, or of the day that an instant has at its own place.
 *
 * @example dayOf('1970-01-03') // 2
 */
export function dayOf(iso: string): number {
  return Date.parse(`${iso.slice(0, 10)}T00:00:00Z`) / dayMs;
}

/**
 * A day since 1970 as YYYY-MM-DD.
 *
 * @example dateOf(2) // '1970-01-03'
 */
export function dateOf(day: number): string {
  return new Date(day * dayMs).toISOString().slice(0, 10);
}

/**
 * The same day so many months later; the last of the month where it has none such.
 *
 * @example dateOf(monthsLater(dayOf('2026-01-31'), 1)) // '2026-02-28'
 */
export function monthsLater(day: number, months: number): number {
  const date = new Date(day * dayMs);
  const month = date.getUTCMonth() + months;
  const last = new Date(Date.UTC(date.getUTCFullYear(), month + 1, 0)).getUTCDate();
  return Date.UTC(date.getUTCFullYear(), month, Math.min(date.getUTCDate(), last)) / dayMs;
}

/**
 * The calendar year of a day since 1970.
 *
 * @example yearOf(365) // 1971
 */
export function yearOf(day: number): number {
  return new Date(day * dayMs).getUTCFullYear();
}
