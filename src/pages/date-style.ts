import { monthNames } from './day-text.ts';

/** How a reader writes days: 2 Mar 2026, Mar 2, 2026, or 2026-03-02. */
export const dateStyles = ['day-first', 'month-first', 'iso'] as const;

export type DateStyle = (typeof dateStyles)[number];

const names = monthNames.join('|');
const written = new RegExp(`\\b(?:(\\d{1,2}) )?(${names}) (\\d{4})\\b`, 'g');

/**
 * A text with its days and months, as `dayText` and `monthText` write them, in another style.
 *
 * @example inDateStyle('2 Mar 2026 to Apr 2026', 'month-first') // 'Mar 2, 2026 to Apr 2026'
 * @example inDateStyle('2 Mar 2026 to Apr 2026', 'iso') // '2026-03-02 to 2026-04'
 */
export function inDateStyle(text: string, style: DateStyle): string {
  if (style === 'day-first') return text;
  return text.replace(written, (_, day: string | undefined, name: string, year: string) => {
    if (style === 'month-first') return day === undefined ? `${name} ${year}` : `${name} ${day}, ${year}`;
    const month = String(monthNames.indexOf(name) + 1).padStart(2, '0');
    return day === undefined ? `${year}-${month}` : `${year}-${month}-${day.padStart(2, '0')}`;
  });
}
