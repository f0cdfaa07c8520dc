import { InvalidArgumentError } from 'commander';

/** An option's value as a calendar day, ISO 8601. */
export function isoDate(text: string): string {
  const time = /^\d{4}-\d{2}-\d{2}$/.test(text) ? Date.parse(`${text}T00:00:00Z`) : Number.NaN;
  if (Number.isNaN(time) || new Date(time).toISOString().slice(0, 10) !== text)
    throw new InvalidArgumentError(`a day such as 2026-06-30 is wanted, received "${text}"`);
  return text;
}
