/** Months as they are written, in their order. */
export const monthNames = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/**
 * A day as people write it, the same everywhere: taken from the text, so that no time zone moves it.
 *
 * @param iso ISO 8601 date or instant; anything else is given back as it is
 * @example dayText('2026-03-02T08:15:00-06:00') // '2 Mar 2026'
 */
export function dayText(iso: string): string {
  const [, year, month, day] = /^(\d{4})-(\d{2})-(\d{2})/.exec(iso) ?? [];
  const name = monthNames[Number(month) - 1];
  return name === undefined ? iso : `${Number(day)} ${name} ${year}`;
}

/**
 * A day and the clock time at the site.
 *
 * @example momentText('2026-03-02T08:15:00-06:00') // '2 Mar 2026, 08:15'
 */
export function momentText(iso: string): string {
  const [, clock] = /T(\d{2}:\d{2})/.exec(iso) ?? [];
  return clock === undefined ? dayText(iso) : `${dayText(iso)}, ${clock}`;
}

/**
 * From the first to the last day of some jobs.
 *
 * @param period ISO 8601 dates, empty where there is no job
 * @example periodText({ from: '2026-03-02', to: '2026-04-11' }) // '2 Mar 2026 to 11 Apr 2026'
 * @example periodText({ from: '', to: '' }) // 'no jobs yet'
 */
export function periodText({ from, to }: { readonly from: string; readonly to: string }): string {
  return to === '' ? 'no jobs yet' : `${dayText(from)} to ${dayText(to)}`;
}

/**
 * A month as people write it.
 *
 * @param month YYYY-MM
 * @example monthText('2026-03') // 'Mar 2026'
 */
export function monthText(month: string): string {
  return dayText(`${month}-01`).replace(/^1 /, '');
}
