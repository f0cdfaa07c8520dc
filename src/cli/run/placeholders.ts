import { DateTime } from 'luxon';

/** What texts of a declared run may hold of the day of the run. */
const placeholders: Readonly<Record<string, (day: DateTime) => string | null>> = {
  today: (day) => day.toISODate(),
  week: (day) => day.toFormat("kkkk-'W'WW"),
  month: (day) => day.toFormat('yyyy-MM'),
  'last-month': (day) => day.minus({ months: 1 }).toFormat('yyyy-MM'),
  'last-month-start': (day) => day.minus({ months: 1 }).startOf('month').toISODate(),
  'last-month-end': (day) => day.startOf('month').minus({ days: 1 }).toISODate(),
};

/** A word in braces; braces with a comma are a glob's. */
const written = /\{([^{},/\\]*)\}/g;

/** The names that there are, for messages. */
export const knownPlaceholders = Object.keys(placeholders)
  .map((name) => `{${name}}`)
  .join(', ');

/** The first placeholder of a text that there is not. */
export function unknownPlaceholder(text: string): string | undefined {
  return [...text.matchAll(written)].find(([, name = '']) => !Object.hasOwn(placeholders, name))?.[0];
}

/** Whether a text holds any. */
export function hasPlaceholder(text: string): boolean {
  return text.search(written) >= 0;
}

/**
 * A text with the day of the run in place of its placeholders.
 *
 * @param day ISO 8601
 * @example filledIn('report/{week}', '2026-12-01') // 'report/2026-W49'
 */
export function filledIn(text: string, day: string): string {
  const of = DateTime.fromISO(day);
  return text.replaceAll(written, (all, name: string) => placeholders[name]?.(of) ?? all);
}
