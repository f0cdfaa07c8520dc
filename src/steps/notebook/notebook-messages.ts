import type { NotebookOutput } from '../../pages/notebook/notebook-output.ts';
import type { UnitSystem } from '../../units/display.ts';

/** What a notebook's own process is told once it has started. */
export interface NotebookTask {
  /** The module's address: that of the Markdown file. */
  readonly url: string;
  /** The module, TypeScript. */
  readonly source: string;
  readonly storeFolder: string;
  readonly units: UnitSystem;
  readonly codes: boolean;
}

/** What it says: a cell begins, something is shown, all is done, or something went wrong. */
export type NotebookMessage =
  | { readonly cell: number }
  | { readonly output: NotebookOutput }
  | { readonly done: true }
  | { readonly failed: NotebookFailure };

/** What went wrong, and where in the notebook. */
export interface NotebookFailure {
  readonly problem: string;
  /** From 1 on; null where nothing tells: then it is within the cell that was begun last. */
  readonly line: number | null;
  readonly column: number | null;
}
