import { amountParts, isNullWord, isNumberText, isOverWord } from './cell-shape.ts';
import type { DraftColumn, DraftTable } from './draft.ts';
import { bare } from './find-runs.ts';
import { type ReadName, readName, unitOfHeader, type WrittenUnit } from './header-unit.ts';
import { numberIn, type NumberStyle, numberStyle } from './number-style.ts';

/** A unit with the place where a file tells it. */
export type PlacedUnit = WrittenUnit & {
  readonly place: 'in brackets' | 'in the name' | 'in unit row' | 'in the cells';
};

/** A column with what its name and its first values say. */
export interface ColumnView {
  readonly column: DraftColumn;
  readonly plain: string;
  /** Nearest first: below the name, in brackets, in the name, in the cells. */
  readonly units: readonly PlacedUnit[];
  /** Values that are there. */
  readonly texts: readonly string[];
  readonly numbers: readonly number[];
  readonly isNumber: boolean;
  /** In a column of numbers what is none. */
  readonly overWords: readonly string[];
  readonly nullWords: readonly string[];
  /** The same where it is no usual word for it. */
  readonly otherWords: readonly string[];
  /** Where each cell holds a number and its unit: what parts the two. */
  readonly before?: string;
}

/** How the numbers of all tables of a file are written. */
export function styleOf(tables: readonly DraftTable[]): NumberStyle {
  return numberStyle(tables.flatMap(({ columns }) => columns.flatMap(({ values }) => values)));
}

/** What a column's name and values say. */
export function columnView(column: DraftColumn, style: NumberStyle): ColumnView {
  const name: ReadName = readName(column.name);
  const texts = column.values.filter((value) => value !== '');
  const amounts = texts.map((text) => (isNumberText(text) ? undefined : amountParts(text)));
  const inCells = unitInCells(amounts, texts.length);
  const numberOf = (text: string, index: number) =>
    numberIn(inCells === undefined ? text : (amounts[index]?.number ?? text), style);
  const numbers = texts.map(numberOf);
  const strange = [...new Set(texts.filter((_, index) => numbers[index] === undefined))];
  const known = numbers.filter((value) => value !== undefined);
  const words = texts.length - known.length;
  const usual = texts.filter((text, index) => numbers[index] === undefined && (isNullWord(text) || isOverWord(text)));
  const isNumber =
    known.length > 0 && known.length >= (texts.length - usual.length) * 0.5 && (words === 0 || strange.length <= 12);
  return {
    column,
    plain: name.plain,
    units: placedUnits(column, name, inCells?.unit),
    texts,
    numbers: known,
    isNumber,
    overWords: strange.filter((word) => isOverWord(word)),
    nullWords: strange.filter((word) => !isOverWord(word) && isNullWord(word)),
    otherWords: strange.filter((word) => !isOverWord(word) && !isNullWord(word)),
    ...(inCells === undefined ? {} : { before: inCells.before }),
  };
}

function unitInCells(
  amounts: readonly ReturnType<typeof amountParts>[],
  count: number,
): { unit: WrittenUnit; before: string } | undefined {
  const [first] = amounts.flatMap((amount) => amount ?? []);
  const unit = first === undefined ? undefined : unitOfHeader(first.unit);
  if (unit === undefined) return undefined;
  const same = amounts.filter((amount) => amount?.unit === first.unit && amount.gap === first.gap);
  if (same.length < count * 0.6 || same.length < amounts.filter((amount) => amount !== undefined).length)
    return undefined;
  return { unit, before: first.gap === '' ? first.unit[0] : first.gap };
}

function placedUnits(column: DraftColumn, name: ReadName, inCells: WrittenUnit | undefined): PlacedUnit[] {
  const below = column.unitBelow === undefined ? undefined : unitOfHeader(bare(column.unitBelow));
  return [
    ...(below === undefined
      ? []
      : [{ ...below, place: column.unitIsBeside === true ? ('in the name' as const) : ('in unit row' as const) }]),
    ...name.units.map(({ inBrackets, ...unit }) => ({
      ...unit,
      place: inBrackets ? ('in brackets' as const) : ('in the name' as const),
    })),
    ...(inCells === undefined ? [] : [{ ...inCells, place: 'in the cells' as const }]),
  ];
}
