import { type Column, columnsOf } from '../records/table.ts';
import { readings } from '../records/tables/readings.ts';
import { identifier, literal } from './sql.ts';

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

/**
 * A select statement over a file of readings that gives its columns typed and in file order, and raises an error at the
 * first value that the table does not allow. It says nothing about where: the row-by-row reader finds that. What it takes,
 * that reader takes with the same result; texts as such are looked at once the part is written.
 *
 * @param isText whether a column of the file holds text
 */
export function checkedReadings(
  relation: string,
  columns: readonly Column[],
  isText: (name: string) => boolean,
): string {
  const typed = columns.map((column) => `${typedCell(column, isText(column.name))} AS ${identifier(column.name)}`);
  const wrong = columns.map((column) => wrongCell(column)).filter((condition) => condition !== '');
  const rest = columns.filter((column) => column.name !== 'job_id').map((column) => identifier(column.name));
  return `SELECT CASE WHEN ${wrong.join(' OR ')} THEN error('wrong value') ELSE job_id END AS job_id, ${rest.join(', ')}
    FROM (SELECT ${typed.join(', ')} FROM ${relation})`;
}

/** The relation of a CSV file in which every cell is text. */
export function csvRelation(path: string, names: readonly string[]): string {
  const texts = `{${names.map((name) => `${literal(name)}: 'VARCHAR'`).join(', ')}}`;
  return `read_csv(${literal(path)}, auto_detect = false, header = true, delim = ',', quote = '"', escape = '"',
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

function typedCell(column: Column, isText: boolean): string {
  const name = identifier(column.name);
  if (column.kind !== 'number') return name;
  if (!isText) return `CAST(${name} AS DOUBLE)`;
  // The engine reads 1_000 and +-5 as numbers; they are none here. NaN is outside every range.
  const number = `CASE WHEN contains(${name}, '_') OR contains(${name}, '+-') THEN 'nan'::DOUBLE ELSE CAST(${name} AS DOUBLE) END`;
  if (!column.over) return number;
  return `CASE WHEN trim(${name}) = 'over' THEN 'infinity'::DOUBLE WHEN isinf(${number}) THEN 'nan'::DOUBLE ELSE ${number} END`;
}

function wrongCell(column: Column): string {
  const name = identifier(column.name);
  const conditions: string[] = [];
  if (column.required) conditions.push(`${name} IS NULL`);
  if (column.kind === 'number') {
    const over = column.over ? ` OR ${name} = 'infinity'` : '';
    conditions.push(`NOT (${name} BETWEEN ${column.min} AND ${column.max}${over})`);
  } else if (column.words !== undefined) {
    conditions.push(`NOT (${name} IN (${column.words.map(literal).join(', ')}))`);
  }
  return conditions.map((condition) => `coalesce(${condition}, false)`).join(' OR ');
}
