import { readFileSync } from 'node:fs';
import { z } from 'zod';
import { DryholdError } from '../errors.ts';
import { parseCell } from '../records/cell.ts';
import { type Column, columnsOf, type Table } from '../records/table.ts';
import { inputTables, tableNamed } from '../records/tables.ts';
import { type Dimension, dimensionOf, isUnitName, unitNames } from '../units/unit.ts';

const word = z.string().min(1);

const fromColumn = z
  .strictObject({
    column: z
      .union([word, z.number().int().min(1)])
      .describe('Which column of the file: its name in the header line, or its position from 1.'),
    unit: word.optional().describe('The unit the file uses; left out where it is already the unit of our column.'),
    time: z
      .enum(['clock'])
      .optional()
      .describe('clock: a time of day hh:mm:ss, taken as seconds since the first row, on across midnight.'),
    over_from: z
      .number()
      .optional()
      .describe('At or above this value, in the unit of the file, the gauge is above its range.'),
  })
  .describe('Taken from a column of the file.');

const constant = z
  .strictObject({ constant: z.union([word, z.number(), z.boolean()]) })
  .describe('The same value in every row.');

const fileName = z
  .strictObject({ file_name: z.literal(true) })
  .describe("The file's name without its extension, for exports that hold one job a file.");

const cell = z.union([fromColumn, constant, fileName]);

/** A source map: which column of somebody's export feeds which column here. */
export const sourceMapSchema = z
  .strictObject({
    $schema: word.optional(),
    name: word.describe('What the map is called in messages.'),
    file: z
      .strictObject({
        kind: z.enum(['csv', 'ndjson']).default('csv'),
        delimiter: z.string().length(1).default(','),
        skip_lines: z.number().int().min(0).default(0).describe('Lines before the header line.'),
        header: z.boolean().default(true).describe('Whether the next line names the columns.'),
      })
      .prefault({}),
    null_words: z.array(z.string()).default([]).describe('Words that mean "not read"; an empty cell always does.'),
    over_words: z.array(word).default([]).describe("Words that mean above the gauge's range."),
    rows: z
      .array(
        z.strictObject({
          table: z.enum(inputTables.map((table) => table.name) as [string, ...string[]]),
          columns: z.record(word, cell).describe('Our column → where it comes from.'),
        }),
      )
      .min(1)
      .describe('What each row of the file becomes: one entry for each row of a table, such as one for each gauge.'),
  })
  .meta({ title: 'dryhold source map', description: "Says how somebody's exported file feeds the tables of dryhold." });

export type SourceMap = z.infer<typeof sourceMapSchema>;
export type MapCell = z.infer<typeof cell>;

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
    json = JSON.parse(content);
  } catch (error) {
    throw new DryholdError(
      'map-invalid',
      { path, where: 'the whole file', problem: (error as Error).message.split('\n')[0] },
      error,
    );
  }
  const parsed = sourceMapSchema.safeParse(json);
  if (!parsed.success) {
    const issue = parsed.error.issues[0];
    throw new DryholdError('map-invalid', { path, where: issue.path.join('.') || 'the top', problem: issue.message });
  }
  for (const [index, entry] of parsed.data.rows.entries()) checkEntry(path, `rows.${index}`, entry);
  return parsed.data;
}

function checkEntry(path: string, place: string, entry: SourceMap['rows'][number]): void {
  const table = tableNamed(entry.table) as Table;
  const columns = columnsOf(table);
  for (const [name, source] of Object.entries(entry.columns)) {
    const column = columns.find((candidate) => candidate.name === name);
    const problem =
      column === undefined ? `table ${table.name} has no column "${name}"` : cellProblem(table, column, source);
    if (problem !== undefined)
      throw new DryholdError('map-invalid', { path, where: `${place}.columns.${name}`, problem });
  }
  const absent = columns.find((column) => column.required && entry.columns[column.name] === undefined);
  if (absent !== undefined) {
    const problem = `table ${table.name} needs column "${absent.name}"`;
    throw new DryholdError('map-invalid', { path, where: `${place}.columns`, problem });
  }
}

/** What is wrong with where a column comes from, as far as the map alone tells. */
function cellProblem(table: Table, column: Column, source: MapCell): string | undefined {
  if ('constant' in source) {
    const parsed = parseCell(column.kind, String(source.constant), column.over);
    if ('problem' in parsed) return parsed.problem;
    const judged = (table.schema.shape[column.name] as z.ZodType).safeParse(parsed.value);
    return judged.success ? undefined : `the constant does not fit: ${judged.error.issues[0].message}`;
  }
  if (!('column' in source)) return undefined;
  if (source.time === 'clock' && column.unit !== 's') return 'a time of day feeds only a column of seconds';
  if (source.over_from !== undefined && !column.over) return 'this column knows no "above the range"';
  if (source.unit === undefined) return undefined;
  if (!isUnitName(source.unit)) return `unknown unit "${source.unit}"; known: ${unitNames.join(', ')}`;
  return dimensionOf(source.unit) === dimensionOfColumn(column.unit)
    ? undefined
    : `"${source.unit}" does not measure what the column holds (${column.unit ?? 'no unit'})`;
}

function dimensionOfColumn(unit: string | undefined): Dimension {
  switch (unit) {
    case 'Pa':
      return 'pressure';
    case '°C':
      return 'temperature';
    case 'kg':
      return 'mass';
    case 'm':
      return 'length';
    case 'mm':
      return 'bore';
    case 's':
      return 'time';
    case 'L':
      return 'volume';
    case 'W':
      return 'power';
    case 'L/s':
      return 'flow';
    default:
      return 'none';
  }
}
