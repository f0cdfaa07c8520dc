import { DateTime } from 'luxon';
import type { MapTime } from './source-map.ts';
import { spreadsheetSeconds } from './spreadsheet-number.ts';

/** A time as it was read: more than one moment where clocks stood twice at it, when summer time ended. */
export type ReadTime = { readonly moments: readonly number[] } | { readonly problem: string };

/** What a time counts from: nothing, midnight, or 1970. */
export type TimeOrigin = 'duration' | 'midnight' | 'epoch';

/** Reads times that are written in one way. */
export interface TimeReader {
  readonly origin: TimeOrigin;
  /** @returns seconds since the origin */
  readonly read: (text: string) => ReadTime;
}

/**
 * Makes the reader of one way to write times.
 *
 * @param zone where the clocks stand; UTC where it does not matter
 * @example timeReader('elapsed').read('1:02:03') // { moments: [3723] }
 */
export function timeReader(time: MapTime, zone = 'UTC'): TimeReader {
  if (typeof time === 'object') {
    const wanted = `a time ${time.format}`;
    const parser = DateTime.buildFormatParser(time.format, { locale: 'en-US' });
    const parsed = (text: string) => DateTime.fromFormatParser(text, parser, { zone: 'UTC' });
    const atClock = inZone(zone);
    const read = tellsOffset(time.format)
      ? (text: string) => atOffset(parsed(text), text, wanted)
      : (text: string) => atClock(parsed(text), text, wanted);
    return { origin: 'epoch', read };
  }
  switch (time) {
    case 'clock':
      return { origin: 'midnight', read: timeOfDay };
    case 'elapsed':
      return { origin: 'duration', read: elapsed };
    case 'epoch_s':
      return { origin: 'epoch', read: (text) => numeric(text, (value) => value) };
    case 'epoch_ms':
      return { origin: 'epoch', read: (text) => numeric(text, (value) => value / 1000) };
    case 'spreadsheet': {
      const atClock = inZone(zone);
      return {
        origin: 'epoch',
        read: (text) => {
          const read = numeric(text, spreadsheetSeconds);
          if ('problem' in read) return read;
          return atClock(DateTime.fromSeconds(read.moments[0], { zone: 'UTC' }), text, 'a day number');
        },
      };
    }
    case 'local': {
      const atClock = inZone(zone);
      return { origin: 'epoch', read: (text) => local(text, atClock) };
    }
  }
}

/** Whether a pattern holds an offset or a zone, outside of what it quotes. */
export function tellsOffset(format: string): boolean {
  return /z/i.test(format.replaceAll(/'[^']*'/g, ''));
}

/** Whether a text of date and time says its own offset from UTC: behind the time of day nothing else has such an end. */
export function saysOffset(text: string): boolean {
  return /^[^T ]+[T ].*\d *(?:Z|[+-]\d\d(?::?\d\d)?)$/i.test(text.trim());
}

/** Date and time as ISO 8601 has them, whatever spaces stand before the time of day and before the offset. */
export function withoutSpaces(text: string): string {
  const iso = text.trim().replace(/^(\d{4}-\d\d-\d\d) +/, '$1T');
  return iso.replace(/(\d) +(Z|[+-]\d\d(?::?\d\d)?)$/i, '$1$2');
}

function local(text: string, atClock: AtClock): ReadTime {
  const parsed = DateTime.fromISO(withoutSpaces(text), { zone: 'UTC' });
  const wanted = 'a time such as 2026-03-05 14:30:00';
  return saysOffset(text) ? atOffset(parsed, text, wanted) : atClock(parsed, text, wanted);
}

/** A moment that tells its own offset. */
function atOffset(moment: DateTime, text: string, wanted: string): ReadTime {
  return moment.isValid ? { moments: [moment.toSeconds()] } : { problem: `not ${wanted}: ${JSON.stringify(text)}` };
}

type AtClock = (naive: DateTime, text: string, wanted: string) => ReadTime;

/** Makes the reader of what a clock of a zone shows. */
function inZone(zone: string): AtClock {
  const name = zoneName(zone);
  // On nearly all days nobody touches the clocks, and then the day's one offset [s] is all that is needed.
  const offsets = new Map<number, number | undefined>();
  const offsetOfDay = (day: number): number | undefined => {
    const at = (seconds: number) => DateTime.fromSeconds(seconds, { zone: name }).offset * 60;
    const before = at((day - 1) * 86_400);
    return [0, 1, 2].every((further) => at((day + further) * 86_400) === before) ? before : undefined;
  };
  return (naive, text, wanted) => {
    if (!naive.isValid) return { problem: `not ${wanted}: ${JSON.stringify(text)}` };
    const seconds = naive.toMillis() / 1000;
    const day = Math.floor(seconds / 86_400);
    if (!offsets.has(day)) offsets.set(day, offsetOfDay(day));
    const offsetS = offsets.get(day);
    if (offsetS !== undefined) return { moments: [seconds - offsetS] };
    const moment = naive.setZone(name, { keepLocalTime: true });
    if (moment.hour !== naive.hour || moment.minute !== naive.minute)
      return { problem: `no clock of ${zone} shows ${JSON.stringify(text)}: that hour is left out for summer time` };
    return { moments: moment.getPossibleOffsets().map((each) => each.toSeconds()) };
  };
}

/** The name by which the calendar library knows a zone or an offset. */
export function zoneName(zone: string): string {
  return /^[+-]/.test(zone) ? `UTC${zone}` : zone;
}

function numeric(text: string, seconds: (value: number) => number): ReadTime {
  if (!/^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/.test(text.trim()))
    return { problem: `not a number: ${JSON.stringify(text)}` };
  return { moments: [seconds(Number(text))] };
}

function timeOfDay(text: string): ReadTime {
  const match = /^(\d{1,2}):([0-5]\d)(?::([0-5]\d(?:[.,]\d+)?))?(?: ?([AaPp])\.?[Mm]\.?)?$/.exec(text.trim());
  const problem = { problem: `not a time of day hh:mm:ss: ${JSON.stringify(text)}` };
  if (match === null) return problem;
  const [, hourText, minute, second = '0', half] = match;
  let hour = Number(hourText);
  if (half === undefined ? hour > 23 : hour < 1 || hour > 12) return problem;
  if (half !== undefined) hour = (hour % 12) + (half.toLowerCase() === 'p' ? 12 : 0);
  return { moments: [hour * 3600 + Number(minute) * 60 + Number(second.replace(',', '.'))] };
}

function elapsed(text: string): ReadTime {
  const match = /^(?:(\d+):(?=[0-5]?\d:))?(\d+):([0-5]\d(?:[.,]\d+)?)$/.exec(text.trim());
  if (match === null) return { problem: `not a time since the start h:mm:ss: ${JSON.stringify(text)}` };
  const [, hour = '0', minute, second] = match;
  return { moments: [Number(hour) * 3600 + Number(minute) * 60 + Number(second.replace(',', '.'))] };
}
