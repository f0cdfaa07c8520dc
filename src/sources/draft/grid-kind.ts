import type { DraftTable } from './draft.ts';

/** How the lines were made. */
export interface GridKind {
  readonly isSheet: boolean;
  readonly sheet?: string | number;
  /** The last lines of a text file that was read in part. */
  readonly tail: readonly string[];
  readonly delimiter?: string;
  readonly quote?: string;
}

/** A table of lines, with a text that tells it from others. */
export type GridTable = DraftTable & { readonly mark?: string; readonly weight: number };
