import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { BrowserContext, Page } from 'playwright-core';
import { DryholdError } from '../../errors.ts';
import { isRunning, noteUnfinished } from '../../store/whole-file.ts';
import { installedBrowser } from './installed-browser.ts';

/** Sheets that a page is printed on: what the browser calls them, and their width. */
export const papers = {
  letter: { format: 'Letter', widthMm: 215.9 },
  a4: { format: 'A4', widthMm: 210 },
} as const;

export type Paper = keyof typeof papers;

/** Margin at either side, as the style sheet has it [mm]. */
const sideMm = 14;
const pxPerMm = 96 / 25.4;

/** So long a browser may take to start, and a page to be drawn [ms]. */
const mostMs = 60_000;

/** Where a browser keeps what it keeps of itself, with the number of the process that it works for. */
const folderName = 'dryhold-browser-';

/** Below each sheet: what it is a sheet of, and which one. */
const footer = `<div style="width:100%;margin:0 ${sideMm}mm;font:7.5pt sans-serif;color:#56616e;display:flex;justify-content:space-between"><span class="title"></span><span><span class="pageNumber"></span> of <span class="totalPages"></span></span></div>`;

/**
 * Prints pages to PDF by an installed browser, several at once.
 *
 * The charts are drawn for the width of the paper; links to other pages, which a sheet cannot follow, go.
 */
export class PagePrinter {
  readonly #browser: BrowserContext;
  readonly #paper: Paper;
  /** Removes what the browser kept of itself. */
  readonly #tidy: () => void;

  private constructor(browser: BrowserContext, paper: Paper, tidy: () => void) {
    this.#browser = browser;
    this.#paper = paper;
    this.#tidy = tidy;
  }

  /**
   * Starts the browser.
   *
   * @throws DryholdError `browser-missing`
   */
  static async open(paper: Paper): Promise<PagePrinter> {
    const executablePath = installedBrowser();
    const { chromium } = await import('playwright-core');
    removeAbandoned();
    const folder = mkdtempSync(join(tmpdir(), `${folderName}${process.pid}-`));
    const isTidied = noteUnfinished(folder);
    const tidy = (): void => {
      rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
      isTidied();
    };
    try {
      const browser = await chromium.launchPersistentContext(folder, {
        executablePath,
        artifactsDir: folder,
        timeout: mostMs,
        headless: true,
        colorScheme: 'light',
        // Under root, as in a container, it does not start otherwise; what it opens are pages of our own that load nothing.
        chromiumSandbox: process.getuid?.() !== 0,
        args: ['--disable-background-networking', '--disable-component-update', '--disable-sync', '--no-first-run'],
        handleSIGINT: false,
        handleSIGTERM: false,
        handleSIGHUP: false,
      });
      return new PagePrinter(browser, paper, tidy);
    } catch (error) {
      tidy();
      throw new DryholdError(
        'browser-missing',
        { problem: `${executablePath} does not start (${reasonOf(error)})` },
        error,
      );
    }
  }

  /**
   * Prints a page.
   *
   * @param html a document of `pageShell`
   * @returns the bytes of the PDF
   * @throws DryholdError `printing-failed`
   */
  async print(html: string): Promise<Uint8Array> {
    try {
      return await this.#printed(html);
    } catch (error) {
      throw new DryholdError('printing-failed', { problem: reasonOf(error) }, error);
    }
  }

  async close(): Promise<void> {
    await this.#browser.close();
    this.#tidy();
  }

  async #printed(html: string): Promise<Uint8Array> {
    const { format, widthMm } = papers[this.#paper];
    const width = Math.floor((widthMm - 2 * sideMm) * pxPerMm);
    const page = await this.#browser.newPage();
    try {
      page.setDefaultTimeout(mostMs);
      await page.setViewportSize({ width, height: 900 });
      await page.emulateMedia({ media: 'print' });
      await page.setContent(html);
      await page.waitForSelector('html[data-charts=drawn]', { state: 'attached' });
      await withoutLinksOut(page);
      return await page.pdf({
        format,
        displayHeaderFooter: true,
        headerTemplate: '<span></span>',
        footerTemplate: footer,
        tagged: true,
        outline: true,
      });
    } finally {
      await page.close().catch(() => undefined);
    }
  }
}

/** The first line of what went wrong. */
function reasonOf(error: unknown): string {
  return error instanceof Error ? (error.message.split('\n')[0] ?? '') : String(error);
}

/** Removes what browsers of killed programs left. */
function removeAbandoned(): void {
  for (const name of readdirSync(tmpdir())) {
    const pid = new RegExp(`^${folderName}(\\d+)-`).exec(name)?.[1];
    if (pid !== undefined && !isRunning(Number(pid))) rmSync(join(tmpdir(), name), { recursive: true, force: true });
  }
}

/** Leaves the text of links to other pages, and the links within the page. */
async function withoutLinksOut(page: Page): Promise<void> {
  await page.evaluate(
    `for (const link of document.querySelectorAll('a[href]:not([href^="#"]):not([href^="https:"])')) link.removeAttribute('href')`,
  );
}
