// The process of a notebook, which `runNotebook` starts: it is told what to run, runs it, and says what is shown and what fails.
import { registerHooks, stripTypeScriptTypes } from 'node:module';
import type { NotebookFailure, NotebookMessage, NotebookTask } from './notebook-messages.ts';
import { beginNotebookRun } from './notebook-run.ts';

const extension = import.meta.url.endsWith('.ts') ? 'ts' : 'js';
/** What a notebook may import by name, wherever it lies: this very installation. */
const own: Readonly<Record<string, string>> = {
  dryhold: new URL(`../../index.${extension}`, import.meta.url).href,
  'dryhold/physics': new URL(`../../physics/index.${extension}`, import.meta.url).href,
};

// The notebook's frame may lie far below where something is thrown.
Error.stackTraceLimit = 200;
process.once('message', (task: NotebookTask) => void runTask(task));

async function runTask({ url, source, storeFolder, units, codes }: NotebookTask): Promise<void> {
  // A promise that nobody awaits belongs to the notebook, too.
  process.on('uncaughtException', (error) => void end({ failed: failureOf(error, url) }));
  const closing: (() => Promise<void>)[] = [];
  registerHooks({
    resolve: (specifier, context, next) => {
      // The notebook's own address as it is, even where a link leads to it.
      const found = specifier === url ? url : own[specifier];
      return found === undefined ? next(specifier, context) : { url: found, shortCircuit: true };
    },
    load: (address, context, next) =>
      address === url
        ? // Stripped here, since Node would not where packages are installed; lines and columns stay.
          { format: 'module', source: stripTypeScriptTypes(source, { sourceUrl: url }), shortCircuit: true }
        : next(address, context),
  });
  Object.assign(globalThis, { notebookCell: (line: number) => say({ cell: line }) });
  beginNotebookRun({
    storeFolder,
    units,
    codes,
    show: (output) => say({ output }),
    atEnd: (close) => closing.push(close),
  });
  let last: NotebookMessage = { done: true };
  try {
    await import(url);
  } catch (error) {
    last = { failed: failureOf(error, url) };
  }
  for (const close of closing) await close();
  await end(last);
}

/** Says something; what cannot be sent, such as a function within a chart, fails the cell that showed it. */
function say(message: NotebookMessage): void {
  process.send?.(message);
}

/** Says the last thing, and ends once it is said, whatever the notebook left running. */
function end(message: NotebookMessage): Promise<void> {
  return new Promise((resolve) => {
    process.send?.(message, undefined, {}, () => {
      process.disconnect();
      resolve();
    });
  });
}

/** What went wrong, and where in the notebook: its first frame in the stack, or what the parser says above it. */
function failureOf(error: unknown, url: string): NotebookFailure {
  if (!(error instanceof Error)) return { problem: String(error), line: null, column: null };
  const stack = error.stack ?? '';
  const at = stack.indexOf(`${url}:`);
  const [, line, column] = /^(\d+)(?::(\d+))?/.exec(at < 0 ? '' : stack.slice(at + url.length + 1)) ?? [];
  return {
    problem: error.name === 'DryholdError' ? error.message : `${error.name}: ${error.message}`,
    line: line === undefined ? null : Number(line),
    column: column === undefined ? null : Number(column),
  };
}

process.on('disconnect', () => process.exit());
