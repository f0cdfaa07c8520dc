import { IANAZone } from 'luxon';

/** Whether a map may name a time zone so: by its name, or as an offset of a clock that never changes. */
export function isZone(text: string): boolean {
  return /^[+-]\d\d:\d\d$/.test(text) || text === 'UTC' || IANAZone.isValidZone(text);
}

/**
 * The time zone that a file's own words mean, such as `UTC+2` or `Europe/Vienna`; undefined where they mean none that is
 * known.
 */
export function zoneOfWords(text: string): string | undefined {
  const plain = text.trim();
  const [, sign, hours, minutes = '00'] = /^(?:UTC|GMT)?\s*([+-])(\d{1,2}):?(\d{2})?$/.exec(plain) ?? [];
  if (sign !== undefined) return `${sign}${hours.padStart(2, '0')}:${minutes}`;
  if (/^(?:UTC|GMT|Z)$/i.test(plain)) return 'UTC';
  return plain.includes('/') && isZone(plain) ? plain : undefined;
}
