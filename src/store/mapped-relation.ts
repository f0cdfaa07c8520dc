import type { ColumnMeta } from '../records/column.ts';
import { columnsOf } from '../records/table.ts';
import { readings } from '../records/tables/readings.ts';
import { cellReader, type MappedFile } from '../sources/map-cell.ts';
import { columnPosition, columnUnit } from '../sources/map-columns.ts';
import { simpleParts } from '../sources/parse-source-map.ts';
import type { Layout, SourceRow } from '../sources/source-file.ts';
import type { MapCell, MapEntry, MapTime, SimpleCell } from '../sources/source-map.ts';
import { isGaugeUnitName } from '../units/gauge-pressure.ts';
import { toInterchange, type UnitName } from '../units/unit.ts';
import { checkedReadings, readingColumnsOf } from './reading-relation.ts';
import { identifier, literal, plainPath } from './sql.ts';

/** A mapped CSV file as the engine sees it. */
export interface PlainCsv {
  readonly path: string;
  readonly layout: Layout;
  /** Lines before the first row. */
  readonly skip: number;
  /** Whether a number's text may hold what the engine reads as one and we do not: 1_000, +-5. */
  readonly oddNumbers: boolean;
}

/** 2020-01-01 [s since 1970]: times of a select count from there, so that they lie in the range of `elapsed_s` for some thirty years. */
export const engineEpochS = 1_577_836_800;

/** A select over a mapped file. */
export interface MappedRelation {
  readonly select: string;
  readonly columns: readonly string[];
  /** What the times of the select count from where it is not yet the beginning of the job's log: midnight, or 2020 on the clock of the place. */
  readonly times?: 'midnight' | 'epoch';
}

type FromColumn = Extract<SimpleCell, { column: unknown }>;

/**
 * The readings of a mapped CSV file as one select of the engine, or undefined where the map asks for what only the
 * row-by-row reader can do. Like `checkedReadings` it raises an error at the first value that is wrong, or that the engine
 * would take otherwise than the row-by-row reader.
 */
export function mappedRelation(
  file: MappedFile,
  csv: PlainCsv,
  { columns }: MapEntry,
  where: string,
): MappedRelation | undefined {
  const names = columnsOf(readings).filter((column) => columns[column.name] !== undefined);
  const expressions: string[] = [];
  let times: MappedRelation['times'];
  for (const column of names) {
    const cell = columns[column.name];
    const place = `${where}.columns.${column.name}`;
    if ('time' in cell && cell.time !== undefined) {
      const timed = timeExpression(file, cell, cell.time, place);
      if (timed === undefined) return undefined;
      if (timed.counts !== undefined) times = timed.counts;
      expressions.push(`${timed.sql} AS ${identifier(column.name)}`);
      continue;
    }
    const sql = cellExpression(file, csv, column, cell, place);
    if (sql === undefined) return undefined;
    expressions.push(`${sql} AS ${identifier(column.name)}`);
  }
  // Times of day go on from row to row: the rows of one job only are those of the file.
  if (times !== undefined && 'column' in columns.job_id && times === 'midnight') return undefined;
  const relation = `(SELECT ${expressions.join(', ')} FROM ${csvTexts(file, csv)})`;
  const listed = readingColumnsOf(names.map((column) => column.name));
  const select = checkedReadings(relation, listed, { isText: () => false, oddNumbers: false });
  return { select, columns: listed.map((column) => column.name), ...(times === undefined ? {} : { times }) };
}

/** The file with every cell as text, columns by position. */
function csvTexts(file: MappedFile, { path, layout, skip }: PlainCsv): string {
  const texts = file.columns.map((_, index) => `'c${index}': 'VARCHAR'`).join(', ');
  const quote = layout.quote ?? '"';
  return `read_csv(${literal(plainPath(path))}, hive_partitioning = false, auto_detect = false, header = false, skip = ${skip}, delim = ${literal(layout.delimiter ?? ',')},
    quote = ${literal(quote)}, escape = ${literal(quote)}, strict_mode = true, nullstr = '', columns = {${texts}})`;
}

function cellExpression(
  file: MappedFile,
  csv: PlainCsv,
  meta: ColumnMeta & { readonly name: string },
  cell: MapCell,
  where: string,
): string | undefined {
  if (!simpleParts(cell).some((part) => 'column' in part)) return constantExpression(file, meta, cell, where);
  if (!('column' in cell)) return undefined;
  const text = textExpression(file, cell, where);
  if (text === undefined) return undefined;
  return meta.kind === 'number' ? numberExpression(file, csv, meta, cell, text, where) : text;
}

/** A cell that is the same for every row. */
function constantExpression(
  file: MappedFile,
  meta: ColumnMeta & { readonly name: string },
  cell: MapCell,
  where: string,
): string | undefined {
  const row: SourceRow = { line: 0, cells: [], raw: () => '' };
  const read = cellReader(file, readings.name, meta.name, cell, where)(row, '');
  if ('problem' in read) return undefined;
  const { value } = read;
  if (value === undefined) return meta.kind === 'number' ? 'NULL::DOUBLE' : 'NULL::VARCHAR';
  if (meta.kind !== 'number') return typeof value === 'string' ? literal(value) : undefined;
  return value === 'over'
    ? "'infinity'::DOUBLE"
    : Number.isFinite(Number(value))
      ? numberLiteral(Number(value))
      : undefined;
}

/** The text of a column's cell; null where it is a word for "not read". */
function textExpression(file: MappedFile, cell: FromColumn, where: string): string | undefined {
  if (cell.before !== undefined || cell.after !== undefined) return undefined;
  const name = identifier(`c${columnPosition(file, cell.column, where, cell.unit)}`);
  const read = file.map.null_words
    .filter((word) => word !== '')
    .reduce((sql, word) => `nullif(${sql}, ${literal(word)})`, name);
  if (cell.words === undefined) return read;
  const cases = Object.entries(cell.words).map(
    ([theirs, ours]) => `WHEN ${literal(theirs)} THEN ${ours === null ? 'NULL' : literal(String(ours))}`,
  );
  return `CASE ${read} ${cases.join(' ')} ELSE ${read} END`;
}

function numberExpression(
  file: MappedFile,
  csv: PlainCsv,
  meta: ColumnMeta,
  cell: FromColumn,
  text: string,
  where: string,
): string | undefined {
  const { decimal, thousands } = file.map.file;
  const unit = columnUnit(file, columnPosition(file, cell.column, where, cell.unit), cell.unit, where);
  if (thousands !== undefined || (unit !== undefined && isGaugeUnitName(unit))) return undefined;
  const overWords = meta.over ? ['over', ...file.map.over_words] : [];
  const number = overWords.reduce((sql, word) => `nullif(${sql}, ${literal(word)})`, text);
  const plain = decimal === ',' ? `replace(${number}, ',', '.')` : number;
  const odd = [
    ...(decimal === ',' ? [`contains(${number}, '.')`] : []),
    ...(csv.oddNumbers ? [`contains(${number}, '_')`, `contains(${number}, '+-')`] : []),
  ];
  const read = `CAST(${plain} AS DOUBLE)`;
  // NaN is outside every range.
  const finite = `CASE WHEN ${[...odd, `isinf(${read})`].join(' OR ')} THEN 'nan'::DOUBLE ELSE ${read} END`;
  const ours = unit === undefined ? finite : converted(finite, unit);
  const over = overWords.map((word) => `${text} = ${literal(word)}`);
  // NaN would count as more than any number.
  if (cell.over_from !== undefined)
    over.push(`${finite} BETWEEN ${numberLiteral(cell.over_from)} AND ${numberLiteral(Number.MAX_VALUE)}`);
  return over.length === 0 ? ours : `CASE WHEN ${over.join(' OR ')} THEN 'infinity'::DOUBLE ELSE ${ours} END`;
}

/** The same arithmetic as `toInterchange`, so that every digit is the same. */
function converted(sql: string, unit: UnitName): string {
  const offset = toInterchange(0, unit);
  // One unit more, less the offset, is not the factor to the last digit where there is an offset: it is asked without.
  const factor = offset === 0 ? toInterchange(1, unit) : temperatureFactors[unit];
  if (factor === undefined) throw new TypeError(`no factor known for ${unit}`);
  return `((${sql}) * ${numberLiteral(factor)} + ${numberLiteral(offset)})`;
}

const temperatureFactors: Partial<Record<UnitName, number>> = { F: 5 / 9, K: 1 };

function numberLiteral(value: number): string {
  return `'${value}'::DOUBLE`;
}

function timeExpression(
  file: MappedFile,
  cell: MapCell,
  time: MapTime,
  where: string,
): { readonly sql: string; readonly counts?: MappedRelation['times'] } | undefined {
  const parts = simpleParts(cell);
  // Where the date is the file's and the time of day the row's, midnight passes unseen.
  const columns = parts.filter((part) => 'column' in part);
  if (columns.length < parts.length || ('words' in cell && cell.words !== undefined)) return undefined;
  const texts = columns.map((part, index) =>
    textExpression(file, part, columns.length === 1 ? where : `${where}.join.${index}`),
  );
  if (texts.includes(undefined)) return undefined;
  const between = 'join' in cell ? cell.with : '';
  const text = texts.length === 1 ? (texts[0] ?? '') : `(${texts.join(` || ${literal(between)} || `)})`;
  if (time === 'clock') {
    const seconds = `epoch(CAST(${text} AS TIME))`;
    return {
      sql: `CASE WHEN strlen(${text}) = 8 AND ${seconds} < 86400 THEN ${seconds} ELSE 'nan'::DOUBLE END`,
      counts: 'midnight',
    };
  }
  if (time === 'epoch_s' || time === 'epoch_ms') return undefined;
  const pattern = time === 'local' ? 'yyyy-MM-dd HH:mm:ss' : typeof time === 'object' ? time.format : undefined;
  const format = pattern === undefined ? undefined : enginePattern(pattern);
  if (format === undefined || pattern === undefined) return undefined;
  const plain = time === 'local' ? `replace(${text}, 'T', ' ')` : text;
  // A field of fewer digits, filled up with spaces or not, would be taken by one reader only.
  const digits = pattern.replaceAll(' ', '').length;
  const exact = `strlen(${text}) = ${pattern.length} AND strlen(replace(${text}, ' ', '')) = ${time === 'local' ? `${pattern.length} - ${pattern.length - digits} * contains(${text}, ' ')::INTEGER` : digits}`;
  const sql = `CASE WHEN ${exact} THEN epoch(strptime(${plain}, ${literal(format)})) - ${engineEpochS} ELSE 'nan'::DOUBLE END`;
  return { sql, counts: 'epoch' };
}

const fields: Readonly<Record<string, string>> = {
  yyyy: '%Y',
  MM: '%m',
  dd: '%d',
  HH: '%H',
  mm: '%M',
  ss: '%S',
  SSS: '%g',
};

/** The engine's words for a pattern whose fields all have a fixed width, or undefined. */
function enginePattern(pattern: string): string | undefined {
  const format = pattern.replaceAll(/[A-Za-z]+/g, (field) => fields[field] ?? '?');
  return format.includes('?') || format.replaceAll(/%[a-zA-Z]/g, '').includes('%') ? undefined : format;
}
