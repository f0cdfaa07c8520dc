import { mkdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { compileChart } from '../../charts/compile-chart.ts';
import { DryholdError, machineProblem } from '../../errors.ts';
import { type NotebookOutput, type RunCell, wholeChart } from '../../pages/notebook/notebook-output.ts';
import { notebookConfig, notebookPage } from '../../pages/notebook/notebook-page.ts';
import { notebookParts } from '../../pages/notebook/notebook-parts.ts';
import { pageFileName } from '../../pages/page-file-name.ts';
import type { Reader } from '../../pages/page-content.ts';
import { pageShell } from '../../pages/page-shell.ts';
import { Store } from '../../store/store.ts';
import { writeWholeText } from '../../store/whole-file.ts';
import { type NotebookFile, runNotebook, type RunNotebookOptions } from './run-notebook.ts';
import { shownPeople } from './shown-people.ts';

/** How notebooks are run, and for whom their pages are. */
export interface WriteNotebooksOptions extends Pick<RunNotebookOptions, 'storeFolder' | 'codes' | 'onPrinted'> {
  readonly reader: Reader;
  readonly onProgress?: (done: number, of: number, note: string) => void;
}

/** A notebook that was run. */
export interface NotebookResult {
  readonly file: string;
  readonly title: string;
  readonly page: string;
  readonly cells: readonly RunCell[];
  /** What the compiler of its charts remarked. */
  readonly warnings: readonly string[];
}

/**
 * Runs notebooks, one after the other, and writes a page of each. The first that fails ends it: nothing of that one is written, the pages of those
 * before it stand.
 *
 * @param files paths of Markdown files
 * @param outDir where the pages go, each named after its file
 * @throws DryholdError `file-not-found`, `file-unreadable`, `notebook-failed`, `output-unwritable`; `bad-usage` for two files of one name, and
 *   for a notebook that names people though they should go by code
 */
export async function writeNotebooks(
  files: readonly string[],
  outDir: string,
  { reader, storeFolder, codes, onPrinted, onProgress = () => undefined }: WriteNotebooksOptions,
): Promise<NotebookResult[]> {
  // All are looked at before any is run.
  const read = files.map((file) => ({ ...readNotebook(file), page: join(outDir, pageFileName(nameOf(file))) }));
  const twice = read.find(({ page }, at) => read.findIndex((other) => other.page === page) < at);
  if (twice !== undefined)
    throw wrong(
      `${twice.path}: another of these notebooks has the same name, and so would have its page; run them apart`,
    );
  makeFolder(outDir);
  const results: NotebookResult[] = [];
  for (const [at, { page, ...file }] of read.entries()) {
    const { path, notebook } = file;
    const name = nameOf(path);
    const title = notebook.title ?? name;
    const cells = await runNotebook(file, {
      storeFolder,
      units: reader.units,
      codes,
      onPrinted,
      onCell: (done, of) => onProgress(at + done / of, read.length, title),
    });
    if (codes) await assertCoded(file, cells, storeFolder);
    const warnings = await chartWarnings(path, cells);
    await writeWholeText(
      page,
      await pageShell(
        notebookPage({ file: basename(path), title, lead: notebook.lead, parts: notebook.parts, cells }, reader),
      ),
    );
    results.push({ file: path, title, page, cells, warnings });
    onProgress(at + 1, read.length, title);
  }
  return results;
}

const wrong = (problem: string) => new DryholdError('bad-usage', { problem });

const nameOf = (path: string): string => basename(path).replace(/\.(md|markdown)$/i, '');

function readNotebook(path: string): NotebookFile {
  const markdown = textOf(path);
  const notebook = notebookParts(markdown);
  const [line] = notebook.notRun;
  if (line !== undefined)
    throw new DryholdError('notebook-failed', {
      path,
      line,
      problem:
        'a ts cell within a list or a quotation is not run; move its fence to the margin, or name another language',
    });
  return { path, markdown, notebook };
}

function textOf(path: string): string {
  try {
    return readFileSync(path, 'utf8');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') throw new DryholdError('file-not-found', { path }, error);
    const problem = machineProblem(error);
    throw problem === undefined ? error : new DryholdError('file-unreadable', { path, problem }, error);
  }
}

function makeFolder(path: string): void {
  try {
    mkdirSync(path, { recursive: true });
  } catch (error) {
    const problem = machineProblem(error);
    throw problem === undefined ? error : new DryholdError('output-unwritable', { path, problem }, error);
  }
}

/** What the compiler says of the charts, which are in the page as they were shown; what is no chart fails its cell. */
async function chartWarnings(path: string, cells: readonly RunCell[]): Promise<string[]> {
  const warnings: string[] = [];
  for (const { line, outputs } of cells)
    for (const output of outputs) {
      if (output.kind !== 'chart') continue;
      try {
        const compiled = await compileChart(wholeChart(output, notebookConfig));
        warnings.push(...compiled.warnings.map((warning) => `${path}:${line}: "${output.title}": ${warning}`));
      } catch (error) {
        const problem = `"${output.title}" is no chart that Vega-Lite can draw: ${(error as Error).message.replace(/ \{.*\}/s, '')}`;
        throw new DryholdError('notebook-failed', { path, line, problem }, error);
      }
    }
  return warnings;
}

/** Refuses what names people though they should go by code: a notebook may read the whole store, names and all. */
async function assertCoded(
  { path, markdown }: NotebookFile,
  cells: readonly RunCell[],
  storeFolder: string,
): Promise<void> {
  const store = await Store.open(storeFolder, 'read');
  try {
    const named = await shownPeople(store);
    const shown = [
      { line: 1, texts: [markdown] },
      ...cells.map(({ line, outputs }) => ({ line, texts: textsOf(outputs) })),
    ];
    for (const { line, texts } of shown) {
      if (!texts.some((text) => named(text) !== undefined)) continue;
      const problem = `${path}:${line}: shows a technician or a crew by name or id, which --codes forbids; take names from openNotebook(), or leave out --codes`;
      throw wrong(problem);
    }
  } finally {
    await store.close();
  }
}

/** Every text that a cell showed. */
function textsOf(outputs: readonly NotebookOutput[]): string[] {
  const walk = (part: unknown): string[] => {
    if (typeof part === 'string') return [part];
    if (typeof part !== 'object' || part === null) return [];
    return Object.entries(part).flatMap(([name, inner]) => [name, ...walk(inner)]);
  };
  return walk(outputs);
}
