import { type Column, columnsOf, type Table } from '../../records/table.ts';
import { tableNamed } from '../../records/tables.ts';
import { isGaugeUnitName } from '../../units/gauge-pressure.ts';
import { toInterchange } from '../../units/unit.ts';
import { dimensionOfColumn } from '../parse-source-map.ts';
import { type ColumnWords, columnWords, measuredByWords, namesOnlySide, noReading } from './column-words.ts';
import type { ColumnView } from './column-view.ts';
import { fallsInSteps, fallsToVacuum } from './units-by-value.ts';

/** What a column of a file was taken for. */
export interface Meaning {
  readonly column: Column;
  /** Why that is not sure. */
  readonly doubt?: string;
}

/** The columns of one of our tables, by name. */
export function columnsByName(table: string): ReadonlyMap<string, Column> {
  return new Map(columnsOf(tableNamed(table) as Table).map((column) => [column.name, column]));
}

/** Columns that numbers feed. */
export function isNumeric(column: Column): boolean {
  return column.kind === 'number' || column.kind === 'integer';
}

/**
 * What a column is in one of our tables by its name and unit; first by our own name of it.
 *
 * @returns undefined where no words fit
 */
export function meaningByName(table: string, view: ColumnView): Meaning | undefined {
  const columns = columnsByName(table);
  const own = columns.get(view.column.name.trim().toLowerCase());
  if (own !== undefined) return { column: own };
  const computed = table === 'readings' && noReading.test(view.plain);
  for (const words of columnWords[table] ?? []) {
    const column = columns.get(words.column) as Column;
    if (!words.words.test(view.plain) || words.not?.test(view.plain)) continue;
    if (computed && isNumeric(column)) continue;
    // A site that is so many metres is its height, and no name.
    if (column.name === 'site_id' && view.isNumber && view.units.some(({ dimension }) => dimension === 'length'))
      return {
        column: columns.get('altitude_m') as Column,
        doubt: 'its unit is one of length; taken for the height of the site above the sea',
      };
    if (!fitsValues(column, view) || !fitsMeasure(words, column, view)) continue;
    return { column, ...doubtOf(words.column, view) };
  }
  return undefined;
}

function fitsValues(column: Column, view: ColumnView): boolean {
  if (view.texts.length === 0) return true;
  if (isNumeric(column)) return view.isNumber || view.texts.length === view.nullWords.length + view.overWords.length;
  return column.kind !== 'choice' || !view.isNumber;
}

function fitsMeasure({ measures, column: name }: ColumnWords, column: Column, view: ColumnView): boolean {
  if (!isNumeric(column)) return true;
  const wanted = dimensionOfColumn(column.unit);
  if (view.units.length > 0 && wanted !== 'none') return view.units.some((unit) => unit.dimension === wanted);
  const told = measuredByWords(view.plain);
  if (name === 'suction_line_c' || name === 'liquid_line_c') return told === 'temperature';
  if (name === 'compressor_w') return /power|watt|leistung|puissance|potencia/.test(view.plain);
  if (measures === undefined || measures === 'length' || measures === 'bore') return true;
  return told === undefined || told === measures;
}

function doubtOf(name: string, view: ColumnView): { doubt?: string } {
  const side = (name === 'suction_pa' || name === 'liquid_pa' || name.endsWith('_line_c')) && namesOnlySide(view.plain);
  if (side)
    return {
      doubt: `only the side is named; taken for ${name === 'suction_pa' || name === 'suction_line_c' ? 'suction' : 'liquid'}`,
    };
  if (name === 'line_c' && !/pipe|tube|rohr|tuyau|tub|conduite|leitung|line/.test(view.plain))
    return { doubt: 'taken for the pipe during the tests' };
  return {};
}

/** Whether pressures in a unit counted from nothing go far below the atmosphere, and never above it. */
function isDeep({ units, numbers }: ColumnView): boolean {
  const unit = units.find(({ dimension }) => dimension === 'pressure')?.unit;
  if (unit === undefined || isGaugeUnitName(unit) || numbers.length < 3) return false;
  const [low, high] = [Math.min(...numbers), Math.max(...numbers)].map((value) => toInterchange(value, unit));
  return low >= 0 && low < 10_000 && high < 120_000;
}

/**
 * What a column of readings is by its unit and its values, where its name says nothing.
 *
 * @param taken the columns that others feed already
 */
export function meaningByValues(view: ColumnView, taken: ReadonlySet<string>): Meaning | undefined {
  if (!view.isNumber || noReading.test(view.plain)) return undefined;
  const columns = columnsByName('readings');
  const free = (name: string, doubt: string) =>
    taken.has(name) ? undefined : { column: columns.get(name) as Column, doubt };
  const told = view.units[0]?.dimension ?? measuredByWords(view.plain);
  const nameless =
    told === undefined &&
    /^(?:\d*|(?:value|wert|valeur|valor|reading|channel|ch|col|column|field|data|kanal|canal|input) ?\d*)$/.test(
      view.plain,
    );
  if (told === 'pressure' || nameless) {
    const fine = view.units.some(({ unit }) => unit === 'micron' || unit === 'mTorr');
    if (fine) return free('vacuum_pa', 'no word in its name says what it is; its unit is one of vacuum gauges');
    if (isDeep(view))
      return free('vacuum_pa', 'its name does not say so, but it stays below the atmosphere and goes far below it');
    if (fallsToVacuum(view.numbers))
      return free('vacuum_pa', 'its name does not say so, but it falls from the atmosphere as a vacuum does');
  }
  if (told === 'pressure')
    return free(
      'test_pressure_pa',
      'its name does not say which pressure; it is taken for the nitrogen of the standing test',
    );
  if (told === 'temperature')
    return free('line_c', 'its name does not say which temperature; it is taken for the pipe during the tests');
  if (told === 'mass') return free('scale_kg', 'its name does not say which mass; it is taken for the charging scale');
  if (told === 'power')
    return free('compressor_w', 'its name does not say whose power; it is taken for the compressor');
  if (nameless && fallsInSteps(view.numbers))
    return free('scale_kg', 'its name does not say so, but it falls in steps as a charging scale does');
  return undefined;
}
