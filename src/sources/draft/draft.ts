import type { z } from 'zod';
import type { FileKind } from '../source-file.ts';
import type { sourceMapSchema } from '../source-map.ts';

/** A source map as it is written: what has its usual value is left out. */
export type WrittenMap = z.input<typeof sourceMapSchema>;
export type WrittenEntry = WrittenMap['rows'][number];
export type WrittenCell = WrittenEntry['columns'][string];
export type WrittenLayout = NonNullable<WrittenMap['parts']>[string];
export type WrittenHead = NonNullable<WrittenMap['head']>[string];

/** Something that the file does not settle: the place in the map to change, and what to look at, for people. */
export interface Doubt {
  readonly where: string;
  readonly text: string;
}

/** A column, or a value that stands once in the file, that nothing here takes. */
export interface LeftOut {
  readonly what: string;
  readonly why: string;
}

/** A drafted map, with all that it does not say of itself. */
export interface Draft {
  readonly map: WrittenMap;
  /** What the file is, in a sentence's words. */
  readonly content: string;
  readonly unsure: readonly Doubt[];
  readonly leftOut: readonly LeftOut[];
}

/** One line of a text file or row of a sheet, cells as text. */
export interface GridLine {
  /** From 1. */
  readonly line: number;
  readonly cells: readonly string[];
  /** The line as it stands in the file, without spaces around it; of sheets its first cell that holds anything. */
  readonly text: string;
}

/** A column of a table that was found: how the map names it, how people read it, and its first values as text. */
export interface DraftColumn {
  readonly ref: string | number;
  /** Empty where the file gives it none. */
  readonly name: string;
  /** Whether others are called the same but for the unit in brackets. */
  readonly sharesName?: boolean;
  /** What stands below the name in a row of units. */
  readonly unitBelow?: string;
  /** Whether that stands in a column of its own instead. */
  readonly unitIsBeside?: boolean;
  readonly values: readonly string[];
}

/** A table that was found in a file. */
export interface DraftTable {
  readonly layout: WrittenLayout;
  readonly columns: readonly DraftColumn[];
  /** Whether each row is an object whose columns are paths: units then never stand "in header". */
  readonly nested: boolean;
  /** Where lines of several kinds are mixed: which column tells them apart, and the words of this kind. */
  readonly only?: { readonly column: number; readonly is: string[] };
  /** The line of the first row, where lines have numbers. */
  readonly firstLine?: number;
  /** Columns and lines that were set aside before anything was looked up. */
  readonly leftOut?: readonly LeftOut[];
  /** Doubts about where the table stands, by the key of its layout. */
  readonly doubts: readonly Doubt[];
}

/** A value that stands once in a file: how the map finds it, what it is called, and what it says. */
export interface HeadPlace {
  readonly label: string;
  readonly at: WrittenHead;
  readonly value: string;
}

/** What was found in a file, before anything is made of its columns. */
export interface FoundTables {
  readonly kind: FileKind['id'];
  readonly content: string;
  /** What the map says of the file as a whole: kind, encoding, delimiter, quote. */
  readonly file: NonNullable<WrittenMap['file']>;
  readonly tables: readonly DraftTable[];
  readonly heads: readonly HeadPlace[];
  readonly doubts: readonly Doubt[];
  /** A text that tells such files from others. */
  readonly mark?: string;
}
