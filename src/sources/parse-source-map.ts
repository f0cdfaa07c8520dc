import { readFileSync } from 'node:fs';
import { IANAZone } from 'luxon';
import type { z } from 'zod';
import { DryholdError } from '../errors.ts';
import { parseCell } from '../records/cell.ts';
import { type Column, columnsOf, type Table } from '../records/table.ts';
import { tableNamed } from '../records/tables.ts';
import { isGaugeUnitName } from '../units/gauge-pressure.ts';
import { type Dimension, dimensionOf, isUnitName } from '../units/unit.ts';
import { anyUnitNames } from '../units/unit-words.ts';
import { tellsOffset } from './map-time.ts';
import {
  type MapCell,
  type MapEntry,
  type SimpleCell,
  type SourceMap,
  sourceMapSchema,
  timeWords,
  unitInHeader,
  unitInUnitRow,
} from './source-map.ts';

/**
 * Reads and checks a source map.
 *
 * @throws DryholdError `file-not-found`, `map-invalid` with the place in the map
 */
export function readSourceMap(path: string): SourceMap {
  let content: string;
  try {
    content = readFileSync(path, 'utf8');
  } catch (error) {
    throw new DryholdError('file-not-found', { path }, error);
  }
  return parseSourceMap(content, path);
}

/** The same for a map's text. */
export function parseSourceMap(content: string, path: string): SourceMap {
  let json: unknown;
  try {
    json = JSON.parse(content.replace(/^\uFEFF/, ''));
  } catch (error) {
    const problem = (error as Error).message.split('\n')[0];
    throw new DryholdError('map-invalid', { path, where: 'the whole file', problem }, error);
  }
  const parsed = sourceMapSchema.safeParse(json);
  if (!parsed.success) {
    const { where, problem } = schemaProblem(parsed.error.issues[0], json);
    throw new DryholdError('map-invalid', { path, where, problem });
  }
  for (const { where, problem } of problemsOf(parsed.data))
    throw new DryholdError('map-invalid', { path, where, problem });
  return parsed.data;
}

/**
 * What is wrong first. Of a choice between several forms the problem of the form that came furthest says most, as far as it
 * is about something that the map does say.
 */
function schemaProblem(issue: z.core.$ZodIssue, json: unknown, around: readonly PropertyKey[] = []): Problem {
  const path = [...around, ...issue.path];
  const where = path.join('.') || 'the top';
  if (issue.code !== 'invalid_union') return { where, problem: issue.message };
  const said = issue.errors.flat().filter(({ path: [name] }) => name !== undefined && isSaid(json, [...path, name]));
  const [inner] = said.toSorted((a, b) => b.path.length - a.path.length);
  if (inner !== undefined) return schemaProblem(inner, json, path);
  if (where === 'site') return { where, problem: 'needs one of altitude_m and barometer_pa' };
  if (!path.includes('columns') && path[0] !== 'site') return { where, problem: issue.message };
  if (path.at(-1) === 'time') return { where, problem: `none of ${timeWords.join(', ')} and {"format": "…"}` };
  if (['column', 'constant'].includes(String(path.at(-1)))) return { where, problem: issue.message };
  const forms = path[0] === 'site' ? 'column, head, constant or file_name' : allForms;
  return { where, problem: `a column comes from one of ${forms}, each with its own further words` };
}

const allForms = 'column, head, constant, file_name, join, sum or difference';

/** Whether a JSON value has something at a path. */
function isSaid(json: unknown, path: readonly PropertyKey[]): boolean {
  let value = json;
  for (const name of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, name)) return false;
    value = (value as Record<PropertyKey, unknown>)[name];
  }
  return true;
}

interface Problem {
  readonly where: string;
  readonly problem: string;
}

function* problemsOf(map: SourceMap): Generator<Problem> {
  if (map.time_zone !== undefined && !isZone(map.time_zone))
    yield { where: 'time_zone', problem: `no time zone "${map.time_zone}"; such as America/Denver or -07:00` };
  if (map.file.delimiter === map.file.quote)
    yield { where: 'file.quote', problem: 'the same character cannot part cells and enclose them' };
  if (map.file.decimal === map.file.thousands)
    yield {
      where: 'file.thousands',
      problem: 'the same character cannot stand before the decimals and part thousands',
    };
  for (const [name, value] of Object.entries(map.head)) {
    const told = [value.after, value.line, value.path].filter((each) => each !== undefined).length;
    if (told !== 1) yield { where: `head.${name}`, problem: 'needs one of after, line and path' };
  }
  if (map.site !== undefined) {
    const [[column, from]] = Object.entries(map.site);
    yield* referenceProblems(map, from, `site.${column}`);
    const dimension: Dimension = column === 'altitude_m' ? 'length' : 'pressure';
    const unit = 'unit' in from ? from.unit : undefined;
    if (unit !== undefined && !(isUnitName(unit) && dimensionOf(unit) === dimension))
      yield { where: `site.${column}`, problem: `"${unit}" is no unit of ${dimension} counted from nothing` };
  }
  for (const [index, entry] of map.rows.entries()) yield* entryProblems(map, entry, `rows.${index}`);
}

function isZone(name: string): boolean {
  return /^[+-]\d\d:\d\d$/.test(name) || name === 'UTC' || IANAZone.isValidZone(name);
}

function* entryProblems(map: SourceMap, entry: MapEntry, place: string): Generator<Problem> {
  if (entry.part !== undefined && map.parts?.[entry.part] === undefined)
    yield { where: `${place}.part`, problem: `"parts" has no "${entry.part}"` };
  if (entry.part === undefined && map.parts !== undefined)
    yield { where: place, problem: `needs "part", one of ${Object.keys(map.parts).join(', ')}` };
  const table = tableNamed(entry.table) as Table;
  const columns = columnsOf(table);
  for (const [name, source] of Object.entries(entry.columns)) {
    const where = `${place}.columns.${name}`;
    const column = columns.find((candidate) => candidate.name === name);
    if (column === undefined) yield { where, problem: `table ${table.name} has no column "${name}"` };
    else {
      yield* referenceProblems(map, source, where);
      const problem = cellProblem(map, table, column, source);
      if (problem !== undefined) yield { where, problem };
    }
  }
  const absent = columns.find((column) => column.required && entry.columns[column.name] === undefined);
  if (absent !== undefined)
    yield { where: `${place}.columns`, problem: `table ${table.name} needs column "${absent.name}"` };
}

/** Names of head values that the map does not have. */
function* referenceProblems(map: SourceMap, source: MapCell, where: string): Generator<Problem> {
  for (const part of simpleParts(source))
    if ('head' in part && map.head[part.head] === undefined) yield { where, problem: `"head" has no "${part.head}"` };
}

/** The columns, constants … that a cell is made of. */
export function simpleParts(source: MapCell): readonly SimpleCell[] {
  if ('join' in source) return source.join;
  if ('sum' in source) return source.sum;
  return 'difference' in source ? source.difference : [source];
}

/** What is wrong with where a column comes from, as far as the map alone tells. */
function cellProblem(map: SourceMap, table: Table, column: Column, source: MapCell): string | undefined {
  if ('sum' in source || 'difference' in source) {
    if (column.kind !== 'number' && column.kind !== 'integer')
      return 'a sum or a difference feeds only a column of numbers';
    if (simpleParts(source).some((part) => 'time' in part && part.time !== undefined))
      return 'a time cannot be part of a sum or a difference';
  }
  if ('join' in source && source.join.some((part) => 'time' in part && part.time !== undefined))
    return 'the time belongs to the whole: join the texts, then say how the time is written';
  for (const part of simpleParts(source)) {
    if (!('column' in part) && 'unit' in part && (part.unit === unitInHeader || part.unit === unitInUnitRow))
      return `only a column of the file has its unit "${part.unit}"`;
    if ('constant' in part) {
      const problem = simpleParts(source).length > 1 ? undefined : constantProblem(table, column, part);
      if (problem !== undefined) return problem;
    } else if ('over_from' in part && part.over_from !== undefined && !column.over)
      return 'this column knows no "above the range"';
    const problem = 'unit' in part ? unitProblem(map, column, part.unit) : undefined;
    if (problem !== undefined) return problem;
  }
  return timeProblem(map, column, source);
}

function constantProblem(
  table: Table,
  column: Column,
  source: { constant: unknown; unit?: string },
): string | undefined {
  const parsed = parseCell(column.kind, String(source.constant), column.over);
  if ('problem' in parsed) return parsed.problem;
  if (source.unit !== undefined) return undefined;
  const judged = (table.schema.shape[column.name] as z.ZodType).safeParse(parsed.value);
  return judged.success ? undefined : `the constant does not fit: ${judged.error.issues[0].message}`;
}

function unitProblem(map: SourceMap, column: Column, unit: string | undefined): string | undefined {
  if (unit === undefined || unit === unitInHeader || unit === unitInUnitRow) return undefined;
  const dimension = dimensionOfColumn(column.unit);
  if (isGaugeUnitName(unit)) {
    if (dimension !== 'pressure')
      return `"${unit}" does not measure what the column holds (${column.unit ?? 'no unit'})`;
    return map.site === undefined
      ? `"${unit}" counts from the air around the gauge: the map needs "site" with altitude_m or barometer_pa`
      : undefined;
  }
  if (!isUnitName(unit)) return `unknown unit "${unit}"; known: ${anyUnitNames.join(', ')}`;
  return dimensionOf(unit) === dimension
    ? undefined
    : `"${unit}" does not measure what the column holds (${column.unit ?? 'no unit'})`;
}

function timeProblem(map: SourceMap, column: Column, source: MapCell): string | undefined {
  const time = 'time' in source ? source.time : undefined;
  const given = 'time' in source && time !== undefined;
  if (!given) return undefined;
  const instant = column.kind === 'instant' || column.kind === 'date';
  if (!instant && column.unit !== 's' && time === 'clock') return 'a time of day feeds only a column of seconds';
  if (!instant && column.unit !== 's') return 'a time feeds only a column of seconds, of a point in time or of a day';
  if (!instant && column.name !== 'elapsed_s' && time !== 'elapsed')
    return 'how long something took is no point in time: only "elapsed" feeds it';
  if (instant && (time === 'clock' || time === 'elapsed')) return 'a time without a date is no point in time';
  const needsZone = time === 'spreadsheet' || (typeof time === 'object' && !tellsOffset(time.format));
  if (column.kind === 'instant' && needsZone && map.time_zone === undefined)
    return 'the map needs "time_zone": where the clocks stand';
  return undefined;
}

/** What the unit of one of our columns measures. */
export function dimensionOfColumn(unit: string | undefined): Dimension {
  const byUnit: Record<string, Dimension> = {
    Pa: 'pressure',
    '°C': 'temperature',
    kg: 'mass',
    m: 'length',
    mm: 'bore',
    s: 'time',
    L: 'volume',
    W: 'power',
    'L/s': 'flow',
  };
  return byUnit[unit ?? ''] ?? 'none';
}
