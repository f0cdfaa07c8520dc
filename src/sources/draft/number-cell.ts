import { isGaugeUnitName, toGauge } from '../../units/gauge-pressure.ts';
import { type Dimension, toInterchange } from '../../units/unit.ts';
import type { AnyUnitName } from '../../units/unit-words.ts';
import type { Column } from '../../records/table.ts';
import { unitBehind, withoutUnit } from '../map-columns.ts';
import { dimensionOfColumn } from '../parse-source-map.ts';
import { unitInHeader, unitInUnitRow } from '../source-map.ts';
import { unitOfWord } from '../../units/unit-words.ts';
import type { ColumnView, PlacedUnit } from './column-view.ts';
import type { WrittenCell } from './draft.ts';
import { bare } from './find-runs.ts';
import {
  gaugeUnitOf,
  type GuessedUnit,
  highPressureUnit,
  massUnit,
  openPressureUnit,
  temperatureUnit,
  vacuumUnit,
} from './units-by-value.ts';

/** What all columns of a file share. */
export interface DraftContext {
  /** Units that the file tells once for all, by what they measure. */
  readonly units: ReadonlyMap<Dimension, AnyUnitName>;
  /** Temperatures of the columns that tell no unit. */
  readonly bareTemperatures: readonly number[];
  readonly nested: boolean;
}

/** Where a cell comes from, with what is unsure of it: `at` is the place within the cell, such as ".unit". */
export interface DraftedCell {
  readonly cell: WrittenCell;
  readonly doubts: readonly { readonly at: string; readonly text: string }[];
  readonly isGauge?: boolean;
}

/** How one of our columns of numbers is fed by a column of the file. */
export function numberCell(view: ColumnView, column: Column, context: DraftContext): DraftedCell {
  const dimension = dimensionOfColumn(column.unit);
  const doubts: { at: string; text: string }[] = [];
  const base: Record<string, unknown> = { column: view.column.ref };
  if (view.before !== undefined) base.before = view.before;
  const strange = Object.fromEntries(column.over ? [] : view.overWords.map((word) => [word, null]));
  if (Object.keys(strange).length > 0) base.words = strange;
  if (dimension === 'none') {
    return { cell: base as WrittenCell, doubts: foreignUnit(view, column) };
  }
  const told = view.units.find((unit) => unit.dimension === dimension);
  const unit = told === undefined ? unitByValues(view, column, context) : unitAsTold(told, view, column);
  if (unit.doubt !== undefined) doubts.push({ at: '.unit', text: unit.doubt });
  const outside = unit.unit === undefined ? undefined : outOfRange(view.numbers, unit.unit, column);
  if (outside !== undefined) doubts.push({ at: '.unit', text: outside });
  const written = told !== undefined && unit.unit === told.unit ? placeOf(told, view, context) : undefined;
  if (written === unitInHeader && typeof view.column.ref === 'string') base.column = withoutUnit(view.column.name);
  if (written !== undefined) base.unit = written;
  else if (unit.unit !== undefined && !isOwnUnit(unit.unit, column)) base.unit = unit.unit;
  return {
    cell: base as WrittenCell,
    doubts,
    ...(unit.unit !== undefined && isGaugeUnitName(unit.unit) ? { isGauge: true } : {}),
  };
}

/** Where the file itself tells the unit, so that another file of the layout may tell another. */
function placeOf(told: PlacedUnit, view: ColumnView, { nested }: DraftContext): string | undefined {
  if (nested) return undefined;
  const inHeader = unitBehind(view.column.name);
  if (
    told.place === 'in brackets' &&
    view.column.sharesName !== true &&
    inHeader !== undefined &&
    unitOfWord(inHeader) === told.unit
  )
    return unitInHeader;
  const below = view.column.unitBelow;
  return told.place === 'in unit row' && below !== undefined && unitOfWord(bare(below)) === told.unit
    ? unitInUnitRow
    : undefined;
}

interface ChosenUnit {
  readonly unit?: AnyUnitName;
  readonly doubt?: string;
}

const named = (view: ColumnView) => `"${view.column.name || view.column.ref}"`;

function unitAsTold(told: PlacedUnit, view: ColumnView, column: Column): ChosenUnit {
  const isVacuum = column.name.includes('vacuum');
  if (told.unit === undefined) {
    const guess: GuessedUnit =
      told.dimension === 'temperature'
        ? temperatureUnit(view.numbers)
        : openPressureUnit(told.text, view.numbers, isVacuum);
    return {
      unit: guess.unit,
      doubt: `${named(view)} says "${told.text}", which may be two things; taken as ${guess.unit}: ${guess.why}`,
    };
  }
  if (dimensionOfColumn(column.unit) !== 'pressure' || isGaugeUnitName(told.unit)) return { unit: told.unit };
  if (/abs|\ba\b|psia|bara|kpaa/i.test(`${told.text} ${view.plain}`)) return { unit: told.unit };
  const gauge = isVacuum ? vacuumBelowZero(told.unit, view) : gaugeUnitOf(told.unit, view.numbers);
  if (gauge !== undefined)
    return {
      unit: gauge,
      doubt: `${named(view)} says "${told.text}" and reads as low as ${Math.min(...view.numbers)}, so it is taken to count from the air around the gauge: ${gauge}`,
    };
  if (isVacuum || !['bar', 'kPa', 'MPa'].includes(told.unit)) return { unit: told.unit };
  return {
    unit: told.unit,
    doubt: `${named(view)} says "${told.text}" and not from where it counts; taken as absolute. Gauges of refrigerant mostly count from the air around them: write ${told.unit === 'MPa' ? 'another unit' : `"${told.unit}g"`} if this one does`,
  };
}

function vacuumBelowZero(unit: AnyUnitName, view: ColumnView): AnyUnitName | undefined {
  if (Math.min(0, ...view.numbers) >= 0) return undefined;
  return ({ bar: 'barg', kPa: 'kPag', psia: 'psig' } as Partial<Record<AnyUnitName, AnyUnitName>>)[unit];
}

function unitByValues(view: ColumnView, column: Column, context: DraftContext): ChosenUnit {
  const dimension = dimensionOfColumn(column.unit);
  // A column that is called as ours is of our unit.
  if (view.column.name.trim().toLowerCase() === column.name) return {};
  const shared = context.units.get(dimension);
  if (shared !== undefined) return { unit: shared };
  const ask = (unit: AnyUnitName, why: string): ChosenUnit => ({
    unit,
    doubt: `${named(view)} tells no unit; ${unit} is likeliest: ${why}. Put the right one if it is another`,
  });
  if (view.numbers.length === 0)
    return { doubt: `${named(view)} tells no unit, and holds no number so far; taken as ${column.unit}` };
  const guess = guessFor(dimension, column, view, context);
  if (guess !== undefined) return ask(guess.unit, guess.why);
  return { doubt: `${named(view)} tells no unit; taken as ${column.unit}. Put "unit" if it is another` };
}

function guessFor(
  dimension: Dimension,
  column: Column,
  view: ColumnView,
  context: DraftContext,
): GuessedUnit | undefined {
  if (dimension === 'temperature') {
    // Kelvin shows by itself; what else stands in the file may be no temperature at all.
    const alone = temperatureUnit(view.numbers);
    return alone.unit === 'K' ? alone : temperatureUnit(context.bareTemperatures);
  }
  if (dimension === 'mass') return massUnit(view.numbers);
  if (dimension === 'power') {
    const top = Math.max(...view.numbers);
    return { unit: top < 30 ? 'kW' : 'W', why: `readings go up to ${top}` };
  }
  if (dimension !== 'pressure') return undefined;
  if (column.name === 'barometer_pa')
    return { unit: Math.max(...view.numbers) > 2000 ? 'Pa' : 'hPa', why: 'as barometers show' };
  return column.name.includes('vacuum') ? vacuumUnit(view.numbers) : highPressureUnit(view.numbers);
}

function isOwnUnit(unit: AnyUnitName, column: Column): boolean {
  const own: Record<string, string> = { '°C': 'C' };
  return unit === (own[column.unit ?? ''] ?? column.unit);
}

/** Why a unit can hardly be right: most values are then such as no instrument shows. */
function outOfRange(
  numbers: readonly number[],
  unit: AnyUnitName,
  { min = -Infinity, max = Infinity, unit: ours }: Column,
): string | undefined {
  if (numbers.length === 0) return undefined;
  const inOurs = (value: number) =>
    isGaugeUnitName(unit) ? toGauge(value, unit).gaugePa + 101_325 : toInterchange(value, unit);
  const wrong = numbers.filter((value) => inOurs(value) < min || inOurs(value) > max).length;
  if (wrong < numbers.length * 0.2) return undefined;
  return `in ${unit} ${wrong} of ${numbers.length} values are not from ${min} to ${max} ${ours ?? ''} and would be refused; is the unit right?`;
}

/** A unit that no map turns into ours, such as that of an adder. */
function foreignUnit(view: ColumnView, column: Column): { at: string; text: string }[] {
  if (view.column.name.trim().toLowerCase() === column.name) return [];
  const text = `${named(view)}: a map turns no unit into ${column.unit ?? 'a plain number'}; it comes in right only if it is one`;
  return column.unit === undefined ? [] : [{ at: '', text }];
}
