/** A row of a source file before it is judged: where it stands and what it says. */
export interface SourceRow {
  /** Line number (text files) or row number, from 1. */
  readonly line: number;
  /** Cells in file order; undefined where the row could not be split at all. */
  readonly cells: readonly unknown[] | undefined;
  /** Of files that nest: the object of the row and those around it, innermost first; paths lead from there. */
  readonly around?: readonly unknown[];
  /** The row as it stands in the file, cut at 2,000 characters; made only when asked for, so that good rows cost nothing. */
  readonly raw: () => string;
  /** What is wrong with the row as a whole, such as a wrong number of fields. */
  readonly problem?: string;
}

/** An opened file: its column names and its rows, read once. */
export interface SourceRows {
  readonly columns: readonly string[];
  /** The units that stand below the column names, where the layout says so. */
  readonly units?: readonly string[];
  readonly rows: AsyncIterable<SourceRow>;
  /** Text: how many lines stand before the first row. */
  readonly linesBefore?: number;
  /** Lets go of the file before its end. */
  readonly close?: () => Promise<void>;
}

/** Encodings of text that can be told apart or named. */
export type TextEncoding = 'utf-8' | 'utf-16le' | 'utf-16be' | 'windows-1252';

/** How files, or a table within one, are laid out; all of it has a usual value. */
export interface Layout {
  /** By default what a byte order mark says, else UTF-8. */
  readonly encoding?: TextEncoding;
  /** One character; comma by default. */
  readonly delimiter?: string;
  /** One character, or empty where nothing encloses cells; a double quote by default. */
  readonly quote?: string;
  /** The table begins after the first line that begins with this text. */
  readonly afterLine?: string;
  /** Lines before the header line. */
  readonly skipLines?: number;
  /** The header line is the first one that begins with this text. */
  readonly headerBegins?: string;
  /** False where the first line after the skipped ones is data: columns are then named by position, "1", "2", … */
  readonly header?: boolean;
  /** Whether the line after the header holds the units. */
  readonly unitRow?: boolean;
  /** Further lines after the header that are no rows. */
  readonly skipAfterHeader?: number;
  /** The table ends before the first row that begins with this text. */
  readonly untilLine?: string;
  /** Whether rows may have fewer or more cells than the first. */
  readonly ragged?: boolean;
  /** Spreadsheets: name or place, from 1, of the sheet. */
  readonly sheet?: string | number;
  /** Spreadsheets: the cells that count, such as B4:F2000. */
  readonly range?: string;
  /** JSON: whether rows are asked for by path, as a source map does. */
  readonly nested?: boolean;
  /** JSON: the path to the rows. */
  readonly rowsAt?: string;
}

/** One kind of file. `rows` is absent where the store's engine must read the file. */
export interface FileKind {
  readonly id: 'csv' | 'ndjson' | 'json' | 'xlsx' | 'parquet' | 'arrow';
  readonly extensions: readonly string[];
  /** False where a bundle's table cannot come so. */
  readonly inBundles?: boolean;
  readonly rows?: (path: string, layout: Layout) => Promise<SourceRows>;
}

/** The cause of an error where a file can be read, but has no table at the place that was asked for. */
export const noTable = new Error('no table there');

/** A file with more columns is no table: spreadsheets of that width hold something else. Common practice, no source. */
export const mostColumns = 4096;

/** A longer line is no row, but a quote that was never closed, or a file of something else [bytes]. */
export const longestLineBytes = 4 * 1024 * 1024;

/** What nests deeper is no log: nothing could write it down again. Common practice, no source. */
export const deepestNesting = 500;

/** Longest raw text that a reject keeps. */
export const rawLimit = 2000;

/** What shows that bytes are no text of the encoding, or undefined; decoding leaves U+FFFD where it failed. */
export function textProblem(text: string): string | undefined {
  if (text.includes('\0')) return 'holds NUL bytes';
  return text.includes('\uFFFD') ? 'holds bytes that are no UTF-8 text' : undefined;
}
