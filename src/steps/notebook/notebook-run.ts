import type { NotebookOutput } from '../../pages/notebook/notebook-output.ts';
import type { UnitSystem } from '../../units/display.ts';

/** What a notebook is run with, and where what it shows goes. */
export interface NotebookRun {
  readonly storeFolder: string;
  readonly units: UnitSystem;
  /** Whether people go by code. */
  readonly codes: boolean;
  readonly show: (output: NotebookOutput) => void;
  /** Awaited once the notebook is done, or has failed. */
  readonly atEnd: (close: () => Promise<void>) => void;
}

let current: NotebookRun | undefined;

/** Says how the notebook of this process is run; where nobody does, it runs by itself. */
export function beginNotebookRun(run: NotebookRun): void {
  current = run;
}

/** How the notebook of this process is run; undefined where it runs by itself. */
export function notebookRun(): NotebookRun | undefined {
  return current;
}
