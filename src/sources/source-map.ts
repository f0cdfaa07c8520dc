import { z } from 'zod';
import { inputTables } from '../records/tables.ts';

const word = z.string().min(1);

/** Words of a map that say how a time is written. */
export const timeWords = ['clock', 'elapsed', 'local', 'epoch_s', 'epoch_ms', 'spreadsheet'] as const;

const time = z.union([z.enum(timeWords), z.strictObject({ format: word })]).describe(
  `How a time is written. clock: a time of day, taken as seconds since the job's first row, on across midnight; elapsed: h:mm:ss or
     mm:ss since the start; local: date and time as 2026-03-05 14:30:00, with or without an offset; epoch_s and epoch_ms: seconds or
     milliseconds since 1970 in UTC; spreadsheet: days since 1899-12-30, as spreadsheets count; format: date and time in a pattern of
     yyyy MM dd HH hh mm ss SSS a, such as dd.MM.yyyy HH:mm:ss.`.replaceAll(/\s+/g, ' '),
);

const wordsOf = z
  .record(word, z.union([word, z.number(), z.boolean(), z.null()]))
  .describe('Their words → ours; null means "not read". Words that are not listed stay.');

/** How a text becomes a value. */
const reading = {
  before: word.optional().describe('Only what stands before the first of these characters, once "after" has cut.'),
  after: word.optional().describe('Only what stands after the first of these characters.'),
  words: wordsOf.optional(),
  unit: word
    .optional()
    .describe(
      'The unit the file uses; left out where it is already the unit of our column. "in header": in brackets behind the name of the column; "in unit row": below it.',
    ),
  time: time.optional(),
  over_from: z
    .number()
    .optional()
    .describe('At or above this value, in the unit of the file, the gauge is above its range.'),
};

const columnRef = z
  .union([word, z.number().int().min(1)])
  .describe(
    'Which column: its name in the header line, or its position from 1. In JSON a path such as gauge.readings.0, with ^ for the object around the row.',
  );

const fromColumn = z.strictObject({ column: columnRef, ...reading }).describe('Taken from a column of the file.');

const fromHead = z
  .strictObject({ head: word.describe('A name of "head".'), ...reading })
  .describe('Taken from the lines before the header, the same for every row.');

const constant = z
  .strictObject({ constant: z.union([word, z.number(), z.boolean()]), unit: reading.unit })
  .describe('The same value in every row.');

const fromFileName = z
  .strictObject({ file_name: z.literal(true), ...reading })
  .describe("The file's name without its extension, for exports that hold one job a file.");

const simple = z.union([fromColumn, fromHead, constant, fromFileName]);

const joined = z
  .strictObject({
    join: z.array(simple).min(1),
    with: z.string().default('').describe('What stands between the texts.'),
    words: reading.words,
    time: reading.time,
  })
  .describe('Texts one after the other, those that are known.');

const summed = z
  .strictObject({ sum: z.array(simple).min(2) })
  .describe('The sum of numbers; not known where one is not.');

const differed = z
  .strictObject({ difference: z.tuple([simple, simple]) })
  .describe('The first number less the second; not known where one is not.');

const cell = z.union([fromColumn, fromHead, constant, fromFileName, joined, summed, differed]);

/** Where a table of the file begins and ends. */
const layout = {
  after_line: word.optional().describe('It begins after the first line that begins with this text.'),
  skip_lines: z.number().int().min(0).default(0).describe('Lines before the header line.'),
  header_begins: word.optional().describe('The header line is the first one that begins with this text.'),
  header: z.boolean().default(true).describe('Whether the next line names the columns.'),
  unit_row: z.boolean().default(false).describe('Whether the line after the header holds the units.'),
  skip_after_header: z.number().int().min(0).default(0).describe('Further lines after the header that are no rows.'),
  until_line: word.optional().describe('It ends before the first row that begins with this text.'),
  sheet: z
    .union([word, z.number().int().min(1)])
    .optional()
    .describe('Spreadsheets: the name of the sheet, or its place from 1.'),
  range: z
    .string()
    .regex(/^[A-Za-z]{1,3}[1-9]\d*:[A-Za-z]{1,3}[1-9]\d*$/)
    .optional()
    .describe('Spreadsheets: the cells that count, such as B4:F2000.'),
  rows_at: word
    .optional()
    .describe(
      'JSON: the path to the rows, such as log.readings or jobs.*.readings.*; the whole document where left out.',
    ),
};

const head = z
  .strictObject({
    after: word.optional().describe('What stands after this label: in the next cell of its line, or after a colon.'),
    line: z.number().int().min(1).max(200).optional().describe('The line, from 1.'),
    cell: z.number().int().min(1).default(1).describe('Which cell of the line, from 1.'),
    sheet: layout.sheet,
    path: word.optional().describe('JSON: the path from the top of the document.'),
  })
  .describe('A value that stands once in the file: by its label, by its line and cell, or by its path.');

const place = z.union([
  z.strictObject({ altitude_m: simple }).describe('Its height above the sea; with a unit where it is not in metres.'),
  z.strictObject({ barometer_pa: simple }).describe('Its barometer, absolute and not reduced to sea level.'),
]);

/** A source map: which column of somebody's export feeds which column here. */
export const sourceMapSchema = z
  .strictObject({
    $schema: word.optional(),
    name: word.describe('What the map is called in messages.'),
    looks_like: z
      .strictObject({
        file_name: word.optional().describe("A pattern that the file's name fits, such as vac-*.csv."),
        has: z.array(word).min(1).optional().describe('Texts that all stand in the first 64 KiB of the file.'),
      })
      .optional()
      .describe('How to tell such a file, where several maps are given.'),
    file: z
      .strictObject({
        kind: z
          .enum(['csv', 'ndjson', 'json', 'xlsx', 'parquet', 'arrow'])
          .optional()
          .describe("By default what the file's extension says, else csv."),
        encoding: z
          .enum(['utf-8', 'utf-16le', 'utf-16be', 'windows-1252'])
          .optional()
          .describe('By default what a byte order mark says, else utf-8.'),
        delimiter: z.string().length(1).default(',').describe('What parts the cells; a tab is "\\t".'),
        quote: z.string().max(1).default('"').describe('What encloses a cell; empty: nothing does.'),
        decimal: z.enum(['.', ',']).default('.').describe('What stands before the decimals.'),
        thousands: z
          .enum(['.', ',', ' ', "'"])
          .optional()
          .describe('What parts groups of three digits, where anything does.'),
        ...layout,
      })
      .prefault({}),
    parts: z
      .record(
        word,
        z.strictObject({
          ...layout,
          optional: z.boolean().default(false).describe('Whether a file may come without it.'),
        }),
      )
      .optional()
      .describe('Several tables in one file: a name for each, and where it stands.'),
    head: z.record(word, head).default({}).describe('Values that stand once in the file, by a name of your choice.'),
    time_zone: word
      .optional()
      .describe('Where the clocks stand: America/Denver, or an offset such as -07:00 for clocks that never change.'),
    site: place
      .optional()
      .describe('The air around the gauges, which gauge pressures (psig, barg, kPag, inHgv) count from.'),
    null_words: z.array(z.string()).default([]).describe('Words that mean "not read"; an empty cell always does.'),
    over_words: z.array(word).default([]).describe("Words that mean above the gauge's range."),
    rows: z
      .array(
        z.strictObject({
          table: z.enum(inputTables.map((table) => table.name) as [string, ...string[]]),
          part: word.optional().describe('The name of "parts" whose rows these are.'),
          once: z
            .boolean()
            .default(false)
            .describe('One row a file, from its first row, such as the job that it is about.'),
          only: z
            .strictObject({ column: columnRef, is: z.array(word).min(1) })
            .optional()
            .describe('Only rows with one of these words in this column, where lines of several kinds are mixed.'),
          columns: z.record(word, cell).describe('Our column → where it comes from.'),
        }),
      )
      .min(1)
      .describe('What each row of the file becomes: one entry for each row of a table, such as one for each gauge.'),
  })
  .meta({ title: 'dryhold source map', description: "Says how somebody's exported file feeds the tables of dryhold." });

export type SourceMap = z.infer<typeof sourceMapSchema>;
export type MapEntry = SourceMap['rows'][number];
export type MapCell = z.infer<typeof cell>;
export type JoinedCell = z.infer<typeof joined>;
export type SimpleCell = z.infer<typeof simple>;
export type MapTime = z.infer<typeof time>;
export type HeadValue = z.infer<typeof head>;

/** Where a unit stands in the file itself. */
export const unitInHeader = 'in header';
export const unitInUnitRow = 'in unit row';
