/** A row of a source file before it is judged: where it stands and what it says. */
export interface SourceRow {
  /** Line number (text files) or row number, from 1. */
  readonly line: number;
  /** Cells in file order; undefined where the row could not be split at all. */
  readonly cells: readonly unknown[] | undefined;
  /** The row as it stands in the file, cut at 2,000 characters; made only when asked for, so that good rows cost nothing. */
  readonly raw: () => string;
  /** What is wrong with the row as a whole, such as a wrong number of fields. */
  readonly problem?: string;
}

/** An opened file: its column names and its rows, read once. */
export interface SourceRows {
  readonly columns: readonly string[];
  readonly rows: AsyncIterable<SourceRow>;
  /** Lets go of the file before its end. */
  readonly close?: () => Promise<void>;
}

/** How text files are laid out. */
export interface TextLayout {
  /** One character; comma by default. */
  readonly delimiter?: string;
  /** Lines before the header line. */
  readonly skipLines?: number;
  /** False where the first line after the skipped ones is data: columns are then named by position, "1", "2", … */
  readonly header?: boolean;
}

/** One kind of file. `rows` is absent where the store's engine must read the file. */
export interface FileKind {
  readonly id: 'csv' | 'ndjson' | 'parquet' | 'arrow';
  readonly extensions: readonly string[];
  readonly rows?: (path: string, layout: TextLayout) => Promise<SourceRows>;
}

/** Longest raw text that a reject keeps. */
export const rawLimit = 2000;

/** What shows that bytes are no UTF-8 text, or undefined; decoding leaves U+FFFD where it failed. */
export function textProblem(text: string): string | undefined {
  if (text.includes('\0')) return 'holds NUL bytes';
  return text.includes('\uFFFD') ? 'holds bytes that are no UTF-8 text' : undefined;
}
