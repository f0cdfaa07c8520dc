import { basename, extname } from 'node:path';
import { DateTime } from 'luxon';
import { standardAtmosphere } from '../physics/standard-atmosphere.ts';
import { parseCell } from '../records/cell.ts';
import { type ColumnMeta, columnMeta } from '../records/column.ts';
import { tableNamed } from '../records/tables.ts';
import { absolutePressure, isGaugeUnitName, toGauge } from '../units/gauge-pressure.ts';
import { toInterchange } from '../units/unit.ts';
import type { AnyUnitName } from '../units/unit-words.ts';
import { LogClock, type LogStarts } from './log-clock.ts';
import { columnPosition, columnUnit, type FileColumns } from './map-columns.ts';
import { saysOffset, type TimeOrigin, timeReader, withoutSpaces, zoneName } from './map-time.ts';
import { simpleParts } from './parse-source-map.ts';
import { valueAt } from './json-path.ts';
import type { SourceRow } from './source-file.ts';
import type { JoinedCell, MapCell, MapTime, SimpleCell, SourceMap } from './source-map.ts';

/** A value, undefined where it is not known, or what is wrong. */
export type CellValue = { readonly value: unknown } | { readonly problem: string };

/** Reads one of our columns from a row of the file. */
export type CellReader = (row: SourceRow, jobId: string) => CellValue;

/** A file as a map sees it. */
export interface MappedFile extends FileColumns {
  readonly map: SourceMap;
  /** Whether rows are objects that nest. */
  readonly nested: boolean;
  /** Values that stand once in the file. */
  readonly head: ReadonlyMap<string, unknown>;
  readonly starts: LogStarts;
  /** The clocks of the logs, one for each way to count: rows of all entries of the map go on from one another. */
  readonly clocks: Map<string, LogClock>;
}

/** What a file gives before it is a value of ours. */
export type Given = string | number | boolean;

/** How far the air at a place is from that of its height on a usual day [ratio]; common practice, no source. */
const airRatio = 0.03;

const unknown: CellValue = { value: undefined };

/**
 * Makes the reader of one of our columns.
 *
 * @param where the column's place in the map, for messages
 * @throws DryholdError `map-invalid` where the file lacks what the map names
 */
export function cellReader(file: MappedFile, table: string, name: string, cell: MapCell, where: string): CellReader {
  const meta = columnMeta(tableNamed(table)?.schema.shape[name] as never);
  if ('time' in cell && cell.time !== undefined) return timedReader(file, meta, cell, cell.time, where);
  if ('join' in cell) {
    const text = joinedText(file, cell, where);
    return (row) => ({ value: text(row) });
  }
  const parts = simpleParts(cell).map((part, index) => valueReader(file, meta, part, partPlace(cell, where, index)));
  if ('sum' in cell) return (row, jobId) => combined(parts, row, jobId, (a, b) => a + b);
  if ('difference' in cell) return (row, jobId) => combined(parts, row, jobId, (a, b) => a - b);
  return parts[0];
}

/** The place in the map of one part of a cell. */
function partPlace(cell: MapCell, where: string, index: number): string {
  if ('sum' in cell) return `${where}.sum.${index}`;
  return 'difference' in cell ? `${where}.difference.${index}` : where;
}

function combined(
  parts: readonly CellReader[],
  row: SourceRow,
  jobId: string,
  by: (a: number, b: number) => number,
): CellValue {
  let total: number | undefined;
  for (const read of parts) {
    const part = read(row, jobId);
    if ('problem' in part) return part;
    if (part.value === undefined) return unknown;
    if (part.value === 'over') return { problem: 'a value above the range cannot be part of a sum or a difference' };
    const value = Number(part.value);
    total = total === undefined ? value : by(total, value);
  }
  return { value: total };
}

/** The text of a simple cell, trimmed and cut; undefined where it is a word for "not read". */
export function textReader(file: MappedFile, part: SimpleCell, where: string): (row: SourceRow) => Given | undefined {
  if ('constant' in part) return () => part.constant;
  const given = givenReader(file, part, where);
  const nullWords = new Set(['', ...file.map.null_words]);
  return (row) => {
    const value = given(row);
    if (typeof value === 'number' && part.before === undefined && part.after === undefined && part.words === undefined)
      return nullWords.has(String(value)) ? undefined : value;
    let text = textOf(value);
    // This end first, so that the middle of a_b_c can be had.
    if (part.after !== undefined)
      text = text.includes(part.after) ? text.slice(text.indexOf(part.after) + part.after.length) : '';
    if (part.before !== undefined) text = text.split(part.before)[0];
    text = text.trim();
    if (nullWords.has(text)) return undefined;
    return translated(part.words, text);
  };
}

function textOf(value: unknown): string {
  if (value === null || value === undefined) return '';
  if (typeof value === 'string' || typeof value === 'bigint') return String(value);
  // Whole numbers of 64 bits, as lists of Parquet and Arrow hold them, have no other writing in JSON.
  return JSON.stringify(value, (_, member: unknown) => (typeof member === 'bigint' ? Number(member) : member));
}

function translated(words: Readonly<Record<string, Given | null>> | undefined, text: string): Given | undefined {
  if (words === undefined || !Object.hasOwn(words, text)) return text;
  return words[text] ?? undefined;
}

function givenReader(
  file: MappedFile,
  part: Exclude<SimpleCell, { constant: unknown }>,
  where: string,
): (row: SourceRow) => unknown {
  if ('head' in part) {
    const value = file.head.get(part.head);
    return () => value;
  }
  if ('file_name' in part) {
    const stem = basename(file.path, extname(file.path));
    return () => stem;
  }
  if (file.nested) return (row) => valueAt(row.around ?? [], part.column);
  const position = columnPosition(file, part.column, where, part.unit);
  return (row) => row.cells?.[position];
}

/** The value of a simple cell for a column of ours. */
function valueReader(file: MappedFile, meta: ColumnMeta, part: SimpleCell, where: string): CellReader {
  const text = textReader(file, part, where);
  if (meta.kind !== 'number' && meta.kind !== 'integer') return (row) => ({ value: text(row) });
  const overWords = new Set(meta.over ? file.map.over_words : []);
  const overFrom = 'over_from' in part ? part.over_from : undefined;
  const read = numberReader(file, part, where);
  return (row) => {
    const given = text(row);
    if (given === undefined) return unknown;
    if (overWords.has(String(given)) || (meta.over && given === 'over')) return { value: 'over' };
    // Typed columns have no other word for it; a number that JSON spells and a double cannot hold stays wrong.
    if (given === Number.POSITIVE_INFINITY && meta.over && !file.nested) return { value: 'over' };
    return read(row, given, overFrom);
  };
}

/** Reads a number in the unit of the file as one in ours. */
function numberReader(
  file: MappedFile,
  part: SimpleCell,
  where: string,
): (row: SourceRow, given: Given, overFrom?: number) => CellValue {
  const position = 'column' in part && !file.nested ? columnPosition(file, part.column, where, part.unit) : 0;
  const unit = columnUnit(file, position, part.unit, where);
  const air = unit !== undefined && isGaugeUnitName(unit) ? airReader(file) : undefined;
  return (row, given, overFrom) => {
    const parsed = parseCell(
      'number',
      typeof given === 'number' ? String(given) : plainNumber(file.map, String(given)),
    );
    if ('problem' in parsed) return { problem: `not a number: ${JSON.stringify(String(given))}` };
    const value = parsed.value as number;
    if (overFrom !== undefined && value >= overFrom) return { value: 'over' };
    return inOurUnit(value, unit, air, row);
  };
}

function inOurUnit(
  value: number,
  unit: AnyUnitName | undefined,
  air: ((row: SourceRow) => CellValue) | undefined,
  row: SourceRow,
): CellValue {
  if (unit === undefined) return { value };
  if (!isGaugeUnitName(unit)) return { value: toInterchange(value, unit) };
  const around = air?.(row) ?? unknown;
  if ('problem' in around) return around;
  if (around.value === undefined)
    return {
      problem: `a pressure in ${unit} counts from the air around the gauge, and the file does not say how high the site is`,
    };
  const airPa = around.value as number;
  const gauge = toGauge(value, unit);
  // A deep vacuum read against air that is known to a few per cent only.
  if (gauge.gaugePa < -airPa && gauge.gaugePa >= -airPa * (1 + airRatio)) return { value: 0 };
  try {
    return { value: absolutePressure(gauge, airPa) };
  } catch {
    return { problem: `${value} ${unit} is below a perfect vacuum` };
  }
}

/** Reads the air pressure at the site [Pa]. */
function airReader(file: MappedFile): (row: SourceRow) => CellValue {
  const { site } = file.map;
  if (site === undefined) return () => unknown;
  const isAltitude = 'altitude_m' in site;
  const part = isAltitude ? site.altitude_m : site.barometer_pa;
  const where = isAltitude ? 'site.altitude_m' : 'site.barometer_pa';
  const text = textReader(file, part, where);
  const read = numberReader(file, part, where);
  return (row) => {
    const given = text(row);
    const value = given === undefined ? unknown : read(row, given);
    if ('problem' in value || value.value === undefined || !isAltitude) return value;
    const altitudeM = value.value as number;
    if (!(altitudeM >= -500 && altitudeM <= 6000)) return { problem: `no site lies at ${altitudeM} m` };
    return { value: standardAtmosphere(altitudeM) };
  };
}

/** A number as programs write it; one that mixes the map's characters is left as it is, and is no number. */
function plainNumber({ file: { decimal, thousands } }: SourceMap, text: string): string {
  // Only the groups lose their marks: what is left of them behind must not pass for a number.
  const whole = thousands === undefined ? text : text.replace(groupPattern(thousands), digitsOf);
  if (decimal === '.') return whole;
  // A point is no decimal comma: what is left of it must not pass for a number.
  return whole.includes('.') ? `"${text}"` : whole.replace(',', '.');
}

/** What each mark between thousands is written as: spaces may be ones that do not break, apostrophes may be curved. */
const groupPatterns = new Map(
  ['.', ',', ' \u00a0\u202f', "'\u2019"].map((marks) => [
    marks[0],
    new RegExp(`^[+-]?\\d{1,3}(?:[${marks}]\\d{3})+(?!\\d)`),
  ]),
);

function groupPattern(thousands: string): RegExp {
  return groupPatterns.get(thousands) as RegExp;
}

function digitsOf(groups: string): string {
  return groups.replaceAll(/[^\d+-]/g, '');
}

function joinedText(file: MappedFile, cell: JoinedCell, where: string): (row: SourceRow) => Given | undefined {
  const parts = cell.join.map((part, index) => textReader(file, part, `${where}.join.${index}`));
  return (row) => {
    const texts = parts.map((text) => text(row)).filter((text) => text !== undefined);
    return texts.length === 0 ? undefined : translated(cell.words, texts.join(cell.with));
  };
}

/** A time: seconds since the log began, a point in time, or a day. */
function timedReader(file: MappedFile, meta: ColumnMeta, cell: MapCell, time: MapTime, where: string): CellReader {
  const text = 'join' in cell ? joinedText(file, cell, where) : textReader(file, cell as SimpleCell, where);
  const { read, origin } = timeReader(time, file.map.time_zone);
  const parts = simpleParts(cell);
  // Where only the time of day is the row's own, the date stays while midnight passes.
  const pastMidnight = parts.some((part) => 'column' in part) && parts.some((part) => !('column' in part));
  const clock = clockOf(file, origin, pastMidnight);
  return (row, jobId) => {
    const given = text(row);
    if (given === undefined) return origin === 'midnight' ? { problem: 'not a time of day hh:mm:ss: ""' } : unknown;
    const found = read(String(given));
    if ('problem' in found) return found;
    if (meta.unit === 's') return { value: clock.elapsedS(jobId, found.moments) };
    return pointInTime(file.map, meta, time, String(given), found.moments[0]);
  };
}

function clockOf({ clocks, starts }: MappedFile, origin: TimeOrigin, pastMidnight: boolean): LogClock {
  const key = `${origin} ${pastMidnight}`;
  const clock = clocks.get(key) ?? new LogClock(origin, pastMidnight, starts);
  clocks.set(key, clock);
  return clock;
}

function pointInTime(map: SourceMap, meta: ColumnMeta, time: MapTime, text: string, momentS: number): CellValue {
  const told = time === 'local' && saysOffset(text);
  if (meta.kind === 'instant' && map.time_zone === undefined && time === 'local' && !told)
    return { problem: `${JSON.stringify(text)} has no offset, and the map no "time_zone"` };
  const offset = told ? DateTime.fromISO(withoutSpaces(text), { setZone: true }).zone : undefined;
  const zone = map.time_zone === undefined ? (offset ?? 'UTC') : zoneName(map.time_zone);
  const moment = DateTime.fromSeconds(momentS, { zone });
  return { value: meta.kind === 'date' ? moment.toISODate() : moment.toISO({ suppressMilliseconds: true }) };
}
