import { spawn } from 'node:child_process';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { DryholdError } from '../../errors.ts';
import type { NotebookOutput, RunCell } from '../../pages/notebook/notebook-output.ts';
import type { NotebookParts } from '../../pages/notebook/notebook-parts.ts';
import type { UnitSystem } from '../../units/display.ts';
import type { NotebookFailure, NotebookMessage, NotebookTask } from './notebook-messages.ts';
import { notebookModule } from './notebook-module.ts';

/** How a notebook is run. */
export interface RunNotebookOptions {
  readonly storeFolder: string;
  readonly units: UnitSystem;
  /** Whether people go by code. */
  readonly codes: boolean;
  /** Told of each cell that begins: how many are done, of how many. */
  readonly onCell?: (done: number, of: number) => void;
  /** Told of what the notebook itself prints. */
  readonly onPrinted?: (text: string) => void;
}

/** A notebook's file, read. */
export interface NotebookFile {
  readonly path: string;
  readonly markdown: string;
  readonly notebook: NotebookParts;
}

/**
 * Runs a notebook in a process of its own, with this Node and this installation. A notebook is a program: it may do whatever its reader may.
 *
 * @returns what each cell showed
 * @throws DryholdError `notebook-failed` with the line of the notebook
 */
export async function runNotebook(
  { path, markdown, notebook }: NotebookFile,
  { storeFolder, units, codes, onCell, onPrinted }: RunNotebookOptions,
): Promise<RunCell[]> {
  const cells = notebook.parts.flatMap((part) =>
    'code' in part ? [{ line: part.line, outputs: [] as NotebookOutput[] }] : [],
  );
  let begun: number | undefined;
  let end: NotebookFailure | 'done' | undefined;
  const take = (message: NotebookMessage) => {
    if ('cell' in message) {
      begun = cells.findIndex(({ line }) => line === message.cell);
      onCell?.(begun, cells.length);
    } else if ('output' in message) cells[begun ?? 0]?.outputs.push(message.output);
    else end ??= 'done' in message ? 'done' : message.failed;
  };
  const task: NotebookTask = {
    url: pathToFileURL(path).href,
    source: notebookModule(markdown, notebook, (line) => `;notebookCell(${line});`),
    storeFolder,
    units,
    codes,
  };
  const exit = await processOf(task, take, onPrinted);
  if (end === 'done') return cells;
  const { problem, line, column } = end ?? {
    problem: `the notebook ended its own process (${exit})`,
    line: null,
    column: null,
  };
  throw new DryholdError('notebook-failed', {
    path,
    line: line ?? cells[begun ?? 0]?.line ?? 1,
    column: column ?? undefined,
    problem: problem.replaceAll(/\s+/g, ' '),
  });
}

const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/** Starts the process of a notebook, and waits until it is over: with which status, or by which signal. */
function processOf(
  task: NotebookTask,
  take: (message: NotebookMessage) => void,
  onPrinted: (text: string) => void = () => undefined,
): Promise<string> {
  const extension = import.meta.url.endsWith('.ts') ? 'ts' : 'js';
  const entry = fileURLToPath(new URL(`notebook-process.${extension}`, import.meta.url));
  // That types are stripped and modules resolved by hooks is news to nobody here.
  const child = spawn(process.execPath, ['--disable-warning=ExperimentalWarning', entry], {
    stdio: ['ignore', 'pipe', 'pipe', 'ipc'],
    serialization: 'advanced',
  });
  // A cell that never ends hears of nothing: told to end, this process takes it along, before anything else that it does then.
  const kill = () => child.kill('SIGKILL');
  for (const signal of signals) process.prependOnceListener(signal, kill);
  for (const printed of [child.stdout, child.stderr]) printed?.setEncoding('utf8').on('data', onPrinted);
  child.on('message', (message) => take(message as NotebookMessage));
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (status, signal) => {
      for (const each of signals) process.removeListener(each, kill);
      resolve(signal ?? `status ${status}`);
    });
    child.send(task, (error) => error !== null && reject(error));
  });
}
