import { type Column, columnsOf } from '../records/table.ts';
import { readings } from '../records/tables/readings.ts';
import { identifier, literal, plainPath } from './sql.ts';

const readingColumns = columnsOf(readings);

/** The columns of the table that a file of readings has. */
export function readingColumnsOf(names: readonly string[]): Column[] {
  return readingColumns.filter((column) => names.includes(column.name));
}

/** Types of a Parquet column that mean the same to the engine as to the row-by-row reader, by kind of our column. */
const plainNumbers = /^(VARCHAR|DOUBLE|FLOAT|U?(TINY|SMALL|BIG)?INT(EGER)?)$/;
const plainTexts = /^VARCHAR$/;

/** Whether the engine may take a Parquet file whole: every column has a type that needs no reading between the lines. */
export function hasPlainTypes(types: ReadonlyMap<string, string>): boolean {
  return readingColumns.every((column) =>
    (column.kind === 'number' ? plainNumbers : plainTexts).test(types.get(column.name) ?? 'VARCHAR'),
  );
}

export interface ReadingCells {
  /** Whether a column of the file holds text. */
  readonly isText: (name: string) => boolean;
  /** Whether a number's text may hold what the engine reads as one and we do not: 1_000, +-5. */
  readonly oddNumbers: boolean;
}

/**
 * A select statement over a file of readings that gives its columns typed and in file order, and raises an error at the
 * first value that the table does not allow. It says nothing about where: the row-by-row reader finds that. What it takes,
 * that reader takes with the same result; texts as such are looked at once the part is written.
 */
export function checkedReadings(relation: string, columns: readonly Column[], cells: ReadingCells): string {
  const typed = columns.flatMap((column) => typedCells(column, cells));
  const wrong = columns.flatMap((column) => wrongCell(column, cells.isText(column.name)));
  const rest = columns.filter((column) => column.name !== 'job_id').map((column) => givenCell(column, cells));
  return `SELECT CASE WHEN ${wrong.join(' OR ')} THEN error('wrong value') ELSE job_id END AS job_id, ${rest.join(', ')}
    FROM (SELECT ${typed.join(', ')} FROM ${relation})`;
}

/** The relation of a CSV file in which every cell is text. */
export function csvRelation(path: string, names: readonly string[]): string {
  const texts = `{${names.map((name) => `${literal(name)}: 'VARCHAR'`).join(', ')}}`;
  return `read_csv(${literal(plainPath(path))}, hive_partitioning = false, auto_detect = false, header = true, delim = ',', quote = '"', escape = '"',
    strict_mode = true, nullstr = '', columns = ${texts})`;
}

/**
 * The condition that a text column holds what the row-by-row reader refuses or trims. Texts are few and repeat: it is asked
 * of the distinct ones of a written part, not of every row.
 */
export function wrongText(name: string): string {
  const space = String.raw`[\s\v\pZ\x{feff}]`;
  return `strlen(${identifier(name)}) NOT BETWEEN 1 AND 500 OR regexp_matches(${identifier(name)}, '^${space}|${space}$|\\x00')`;
}

/** The flag that a cell held the word `over`. */
const overFlag = (column: Column) => identifier(`${column.name} is over`);

function saysOver(column: Column, { isText }: ReadingCells): boolean {
  return column.over === true && isText(column.name);
}

function typedCells(column: Column, cells: ReadingCells): string[] {
  const name = identifier(column.name);
  if (column.kind !== 'number') return [name];
  const over = saysOver(column, cells) ? [`${name} = 'over' AS ${overFlag(column)}`] : [];
  const number = over.length > 0 ? `CAST(nullif(${name}, 'over') AS DOUBLE)` : `CAST(${name} AS DOUBLE)`;
  // NaN is outside every range.
  const odd = `contains(${name}, '_') OR contains(${name}, '+-')`;
  const checked =
    cells.oddNumbers && cells.isText(column.name) ? `CASE WHEN ${odd} THEN 'nan'::DOUBLE ELSE ${number} END` : number;
  return [`${checked} AS ${name}`, ...over];
}

/** Conditions that are true where a typed cell is wrong; where it is empty and may be, they are not known. */
function wrongCell(column: Column, isText: boolean): string[] {
  const name = identifier(column.name);
  const conditions: string[] = [];
  if (column.required) conditions.push(`${name} IS NULL`);
  if (column.kind === 'number') {
    const over = column.over && !isText ? ` OR ${name} = 'infinity'` : '';
    conditions.push(`NOT (${name} BETWEEN ${column.min} AND ${column.max}${over})`);
  } else if (column.words !== undefined) {
    // Not IN: the engine makes a join of that, which does not keep the order of the rows.
    conditions.push(`NOT (${column.words.map((word) => `${name} = ${literal(word)}`).join(' OR ')})`);
  }
  return conditions;
}

function givenCell(column: Column, cells: ReadingCells): string {
  const name = identifier(column.name);
  return saysOver(column, cells)
    ? `CASE WHEN ${overFlag(column)} THEN 'infinity'::DOUBLE ELSE ${name} END AS ${name}`
    : name;
}
