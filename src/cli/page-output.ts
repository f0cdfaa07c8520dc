import { writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { type Command, Option } from 'commander';
import { DryholdError } from '../errors.ts';
import type { PageContent } from '../pages/page-content.ts';
import { PagePrinter, type Paper, papers } from '../steps/paper/page-printer.ts';
import { writeWhole, writeWholeText } from '../store/whole-file.ts';
import { type CommonOptions, say } from './context.ts';

/** Options of a command that can write what it tells as a page. */
export interface PageOutputOptions extends CommonOptions, PaperOptions {
  readonly html?: string;
  readonly pdf?: string;
}

/** Options of a command that can print. */
export interface PaperOptions {
  readonly paper?: Paper;
}

/** Adds the options by which a page is written. */
export function addPageOptions(command: Command, what: string): Command {
  return command
    .option('--html <file>', `write ${what} instead, as a page that opens offline`)
    .option('--pdf <file>', `the same on paper, through an installed chromium, Chrome or Edge`)
    .addOption(paperOption());
}

/** Which sheets a PDF has. */
export function paperOption(): Option {
  return new Option(
    '--paper <size>',
    'sheets of a PDF; where it is left out, letter with --units ip and a4 with --units si',
  ).choices(Object.keys(papers));
}

/** The sheets that a reader is used to. */
export function paperOf({ paper, units }: PaperOptions & Pick<CommonOptions, 'units'>): Paper {
  return paper ?? (units === 'ip' ? 'letter' : 'a4');
}

/**
 * Makes sure that nothing was said of paper where nothing is printed.
 *
 * @throws DryholdError `bad-usage`
 */
export function assertPrinted({ paper }: PaperOptions, isPrinted: boolean): void {
  if (paper !== undefined && !isPrinted)
    throw new DryholdError('bad-usage', { problem: '--paper says on which sheets a PDF is; ask for one as well' });
}

/**
 * Makes sure that the files of a page can all be had.
 *
 * @throws DryholdError `bad-usage`
 */
export function assertPageOptions({ html, pdf, paper }: PageOutputOptions): void {
  assertPrinted({ ...(paper !== undefined && { paper }) }, pdf !== undefined);
  if (html !== undefined && pdf !== undefined && resolve(html) === resolve(pdf))
    throw new DryholdError('bad-usage', { problem: `--html and --pdf name the same file, ${html}` });
}

/** Whether a page was asked for. */
export const isPageAsked = ({ html, pdf }: PageOutputOptions): boolean => html !== undefined || pdf !== undefined;

/**
 * Writes a page as the files that were asked for, and says their paths.
 *
 * @throws DryholdError `output-unwritable`, `browser-missing`, `printing-failed`
 */
export async function writePage(content: PageContent, options: PageOutputOptions): Promise<void> {
  const { html, pdf, json = false } = options;
  const { pageShell } = await import('../pages/page-shell.ts');
  const page = await pageShell(content);
  if (html !== undefined) {
    await writeWholeText(html, page);
    if (!json) say(html);
  }
  if (pdf === undefined) return;
  const printer = await PagePrinter.open(paperOf(options));
  try {
    const printed = await printer.print(page);
    await writeWhole(pdf, (to) => writeFileSync(to, printed));
  } finally {
    await printer.close();
  }
  if (!json) say(pdf);
}
