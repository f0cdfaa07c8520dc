import type { MapTime } from '../source-map.ts';
import { numberIn, type NumberStyle } from './number-style.ts';
import { timeReader } from '../map-time.ts';

/** How the times of a column are written. */
export interface TimeShape {
  /** Whether values are whole moments, days, times of a day, times since the start, or numbers since the start. */
  readonly is: 'moment' | 'day' | 'clock' | 'elapsed' | 'seconds';
  /** The word or pattern of the map; of days and times of day the part of a pattern, for joining. Absent: a plain number. */
  readonly time?: MapTime;
  /** Whether day and month may be swapped. */
  readonly dayOrMonth?: boolean;
  /** Whether every value says its own offset from UTC, or counts in UTC. */
  readonly zoned?: boolean;
  /** Another doubt, in words. */
  readonly doubt?: string;
}

/** So many of the values must be times; a row with another word is refused alone. */
const mostlyShare = 0.75;

/** Day numbers of one file lie within so many days. */
const mostDays = 400;

const isoMoment = /^\d{4}-\d{2}-\d{2}(?:T| +)\d{2}:\d{2}(?::\d{2}(?:[.,]\d+)?)?(Z|[+-]\d{2}:?\d{2})?$/;
const clock = /^(\d{1,2}):(\d{2})(?::(\d{2})([.,]\d+)?)?( ?[AaPp][Mm])?$/;
const longClock = /^(\d{1,4}):(\d{2})(?::(\d{2})(?:[.,]\d+)?)?$/;

/**
 * How times are written, by all values of a column that are there.
 *
 * @param elapsed whether the column's name says that it counts from the start
 * @returns undefined where they are no times
 */
export function timeShape(values: readonly string[], style: NumberStyle, elapsed: boolean): TimeShape | undefined {
  const texts = values.filter((value) => value !== '');
  if (texts.length === 0) return undefined;
  const most = (is: (text: string) => boolean) => texts.filter(is).length >= texts.length * mostlyShare;
  if (most((text) => isoMoment.test(text)))
    return {
      is: 'moment',
      time: 'local',
      zoned: texts.every((text) => !isoMoment.test(text) || isoMoment.exec(text)?.[1] !== undefined),
    };
  if (most((text) => longClock.test(text) || clock.test(text)))
    return clockShape(
      texts.filter((text) => longClock.test(text) || clock.test(text)),
      elapsed,
    );
  const dated = datedShape(texts, style);
  if (dated !== undefined) return dated;
  return most((text) => numberIn(text, style) !== undefined) ? numberShape(texts, style) : undefined;
}

function clockShape(texts: readonly string[], elapsed: boolean): TimeShape {
  const halves = texts.some((text) => /[AaPp][Mm]$/.test(text));
  const parts = texts.map((text) => longClock.exec(text) ?? clock.exec(text));
  const hours = parts.map((part) => Number(part?.[1]));
  const twoFields = parts.every((part) => part?.[3] === undefined);
  const [first] = texts;
  const fromZero = /^0{1,4}:00(?::0\d(?:[.,]\d+)?)?$/.test(first) && hours[0] === 0;
  if (halves) return { is: 'clock', time: clockFormat(texts) };
  if (elapsed || Math.max(...hours) > 23) return { is: 'elapsed', time: 'elapsed' };
  if (fromZero)
    return {
      is: 'elapsed',
      time: 'elapsed',
      doubt:
        'the times begin at zero, so they are taken to count from the start; if they are times of day write "clock"',
    };
  const doubt =
    'times such as 14:30 are taken as hours and minutes of the day; if they are minutes and seconds since the start write "elapsed"';
  return { is: 'clock', time: clockFormat(texts), ...(twoFields ? { doubt } : {}) };
}

/** The pattern of a time of day. */
function clockFormat(texts: readonly string[]): MapTime {
  return { format: clockPattern(texts) ?? 'HH:mm:ss' };
}

function clockPattern(texts: readonly string[]): string | undefined {
  const [, , , second, fraction, half] = clock.exec(texts[0]) ?? [];
  const all = (is: RegExp) => texts.every((text) => is.test(text));
  const twoDigits = all(/^\d\d:/);
  if (half !== undefined) {
    const seconds = second === undefined ? '' : ':ss';
    return `${twoDigits ? 'hh' : 'h'}:mm${seconds}${fractionPattern(fraction)}${half.startsWith(' ') ? ' ' : ''}a`;
  }
  return `${twoDigits ? 'HH' : 'H'}:mm${second === undefined ? '' : ':ss'}${fractionPattern(fraction)}`;
}

function fractionPattern(fraction: string | undefined): string {
  if (fraction === undefined) return '';
  return fraction.length === 4 ? `${fraction[0]}SSS` : `${fraction[0]}u`;
}

const dated =
  /^(?<date>\d{4}(?<ymd>[-/.])\d{1,2}\k<ymd>\d{1,2}|\d{1,2}(?<dmy>[-/.])\d{1,2}\k<dmy>(?:\d{4}|\d{2})|\d{1,2}(?<named>[-/ ])[A-Za-z]{3}\k<named>\d{4}|[A-Z][a-z]{2} \d{1,2},? \d{4})(?:(?<gap>, |T| )(?<clock>\d{1,2}:\d{2}(?::\d{2}(?:[.,]\d+)?)?(?: ?[AaPp][Mm])?))?(?<offset> ?(?:Z|[+-]\d{2}:?\d{2}))?$/;

/** A pattern of day, month and year, which every value must fit. */
function datedShape(texts: readonly string[], style: NumberStyle): TimeShape | undefined {
  const matches = texts.flatMap((text): Record<string, string | undefined>[] => {
    const groups = dated.exec(text)?.groups;
    return groups === undefined ? [] : [groups];
  });
  if (matches.length < texts.length * mostlyShare) return undefined;
  const [first] = matches;
  const dates = matches.map(({ date = '' }) => date);
  const { patterns, dayOrMonth } = datePatterns(first, dates, style.decimal === ',');
  const clocks = matches.flatMap((match) => match.clock ?? []);
  const whole = clocks.length > 0;
  const tail = whole ? `${first.gap === 'T' ? "'T'" : first.gap}${clockPattern(clocks)}` : '';
  const offset = first.offset === undefined ? '' : first.offset.startsWith(' ') ? ' ZZ' : 'ZZ';
  const sample = matches.length === texts.length ? texts : texts.filter((text) => dated.test(text));
  for (const pattern of patterns) {
    const format = `${pattern}${tail}${offset}`;
    const { read } = timeReader({ format });
    const tried = sample.slice(0, 200);
    // A day that no calendar has is a wrong cell, and not another way to write dates.
    if (tried.filter((text) => 'moments' in read(text)).length <= tried.length / 2) continue;
    const isIsoDay = format === 'yyyy-MM-dd';
    return {
      is: whole ? 'moment' : 'day',
      time: isIsoDay ? 'local' : { format },
      ...(dayOrMonth ? { dayOrMonth } : {}),
      zoned: offset !== '',
    };
  }
  return undefined;
}

function datePatterns(
  { ymd, dmy, named }: Record<string, string | undefined>,
  dates: readonly string[],
  decimalComma: boolean,
): { patterns: string[]; dayOrMonth: boolean } {
  const short = dates.some((date) => /(?:^|\D)\d(?:\D|$)/.test(date));
  const [d, m] = short ? ['d', 'M'] : ['dd', 'MM'];
  if (ymd !== undefined) return { patterns: [`yyyy${ymd}${m}${ymd}${d}`], dayOrMonth: false };
  if (named !== undefined) return { patterns: [`${d}${named}MMM${named}yyyy`], dayOrMonth: false };
  if (dmy === undefined) return { patterns: [`MMM ${d}${dates[0].includes(',') ? ',' : ''} yyyy`], dayOrMonth: false };
  const fields = dates.map((date) => date.split(dmy).map(Number));
  const year = dates.every((date) => /\d{4}$/.test(date)) ? 'yyyy' : 'yy';
  const dayFirst = `${d}${dmy}${m}${dmy}${year}`;
  const monthFirst = `${m}${dmy}${d}${dmy}${year}`;
  if (fields.some(([a]) => a > 12)) return { patterns: [dayFirst], dayOrMonth: false };
  if (fields.some(([, b]) => b > 12)) return { patterns: [monthFirst], dayOrMonth: false };
  if (dmy === '.') return { patterns: [dayFirst], dayOrMonth: false };
  // Nothing in the file settles it, unless days go on and months do not.
  const changes = (of: number) => new Set(fields.map((field) => field[of])).size;
  const patterns = changes(0) > changes(1) ? [dayFirst] : changes(1) > changes(0) ? [monthFirst] : undefined;
  return { patterns: patterns ?? [dmy === '/' && !decimalComma ? monthFirst : dayFirst], dayOrMonth: true };
}

function numberShape(texts: readonly string[], style: NumberStyle): TimeShape {
  const numbers = texts.flatMap((text) => numberIn(text, style) ?? []);
  const between = (low: number, high: number) => numbers.every((value) => value >= low && value <= high);
  const plain = texts.every((text) => numberIn(text, style) === undefined || /^\d+(?:\.\d+)?$/.test(text));
  if (plain && between(7e8, 4.2e9)) return { is: 'moment', time: 'epoch_s', zoned: true };
  if (plain && between(7e11, 4.2e12)) return { is: 'moment', time: 'epoch_ms', zoned: true };
  const withComma = !plain && style.decimal === ',';
  const days = (plain || withComma) && between(36_000, 58_000) && numbers.some((value) => !Number.isInteger(value));
  if (days && Math.max(...numbers) - Math.min(...numbers) < mostDays)
    return {
      is: 'moment',
      time: 'spreadsheet',
      zoned: false,
      doubt: withComma
        ? 'the times look like the day numbers of a spreadsheet, written with a decimal comma, which no map reads: export dates instead'
        : 'the times are numbers that look like the day numbers of a spreadsheet',
    };
  return { is: 'seconds' };
}

/** A time of day alone as the map says it where no date stands beside it; a pattern becomes "clock" where that reads it. */
export function clockAlone(shape: TimeShape): MapTime {
  return shape.is === 'clock' ? 'clock' : (shape.time ?? 'elapsed');
}

/** The pattern of a date and a time that are joined with a space. */
export function joinedTime(day: TimeShape, time: TimeShape): MapTime {
  const date = typeof day.time === 'object' ? day.time.format : 'yyyy-MM-dd';
  const clockText = typeof time.time === 'object' ? time.time.format : 'HH:mm:ss';
  const iso = date === 'yyyy-MM-dd' && /^HH:mm(?::ss(?:[.,](?:SSS|u))?)?$/.test(clockText);
  return iso ? 'local' : { format: `${date} ${clockText}` };
}
