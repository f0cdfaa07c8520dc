import { DryholdError } from '../errors.ts';
import { unitOfWord, type AnyUnitName } from '../units/unit-words.ts';
import { unitInHeader, unitInUnitRow } from './source-map.ts';

/** What a map's columns are looked up in. */
export interface FileColumns {
  readonly mapPath: string;
  readonly path: string;
  readonly columns: readonly string[];
  readonly units?: readonly string[];
}

/** What is wrong where a file lacks what the map names. */
export function misfit({ mapPath, path }: FileColumns, where: string, problem: string): DryholdError {
  return new DryholdError('map-invalid', { path: mapPath, where, problem: `${path} ${problem}` });
}

/** A column's name without the unit that stands behind it in brackets. */
export function withoutUnit(name: string): string {
  return name.replace(/\s*[([{][^()[\]{}]*[)\]}]\s*$/, '').trim();
}

/** The unit that stands behind a column's name in brackets, as it is written. */
export function unitBehind(name: string): string | undefined {
  return /[([{]\s*([^()[\]{}]*?)\s*[)\]}]\s*$/.exec(name)?.[1];
}

/**
 * The place, from 0, of a column of the file; one whose unit stands in its name may be named without it.
 *
 * @throws DryholdError `map-invalid` where the file has no such column, or several
 */
export function columnPosition(file: FileColumns, column: string | number, where: string, unit?: string): number {
  const whole = typeof column === 'string' && file.columns.includes(column);
  const names = unit === unitInHeader && !whole ? file.columns.map(withoutUnit) : file.columns;
  const position = typeof column === 'number' ? column - 1 : names.indexOf(column);
  const twice = typeof column === 'string' && names.lastIndexOf(column) !== position;
  if (position >= 0 && position < file.columns.length && !twice) return position;
  const problem = twice
    ? `has several columns ${JSON.stringify(column)}; name it by its position, from 1`
    : `has no column ${JSON.stringify(column)}; it has ${listed(file.columns)}`;
  throw misfit(file, where, problem);
}

function listed(columns: readonly string[]): string {
  const shown = columns.slice(0, 60).join(', ');
  return columns.length > 60 ? `${shown}, … (${columns.length})` : shown;
}

/**
 * The unit of a column, looked up in the file where the map says so.
 *
 * @throws DryholdError `map-invalid` where the file does not tell it
 */
export function columnUnit(
  file: FileColumns,
  position: number,
  unit: string | undefined,
  where: string,
): AnyUnitName | undefined {
  if (unit !== unitInHeader && unit !== unitInUnitRow) return unit as AnyUnitName | undefined;
  const written =
    unit === unitInHeader ? unitBehind(file.columns[position]) : file.units?.[position]?.replace(/^[([{]|[)\]}]$/g, '');
  const known = written === undefined ? undefined : unitOfWord(written);
  if (known !== undefined) return known;
  const problem =
    written === undefined || written === ''
      ? `tells no unit for column ${position + 1}`
      : `has unit "${written}" for column ${position + 1}, which leaves a doubt: write the unit in the map`;
  throw misfit(file, where, problem);
}
