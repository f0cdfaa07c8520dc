import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { BrowserContext, Page } from 'playwright-core';
import { DryholdError } from '../../errors.ts';
import { noteUnfinished } from '../../store/whole-file.ts';
import { installedBrowser } from './installed-browser.ts';

/** Sheets that a page is printed on: their sizes, and what the margins of the style sheet leave of their width. */
export const papers = {
  letter: { format: 'Letter', widthMm: 215.9 },
  a4: { format: 'A4', widthMm: 210 },
} as const;

export type Paper = keyof typeof papers;

/** Margin at either side, as the style sheet has it [mm]. */
const sideMm = 14;
const pxPerMm = 96 / 25.4;

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
    const folder = mkdtempSync(join(tmpdir(), 'dryhold-browser-'));
    const isTidied = noteUnfinished(folder);
    const tidy = (): void => {
      rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
      isTidied();
    };
    try {
      const browser = await chromium.launchPersistentContext(folder, {
        executablePath,
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
      const [reason = ''] = error instanceof Error ? error.message.split('\n') : [];
      throw new DryholdError('browser-missing', { problem: `${executablePath} does not start (${reason})` }, error);
    }
  }

  /**
   * Prints a page.
   *
   * @param html a document of `pageShell`
   * @returns the bytes of the PDF
   */
  async print(html: string): Promise<Uint8Array> {
    const { format, widthMm } = papers[this.#paper];
    const width = Math.floor((widthMm - 2 * sideMm) * pxPerMm);
    const page = await this.#browser.newPage();
    try {
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
      await page.close();
    }
  }

  async close(): Promise<void> {
    await this.#browser.close();
    this.#tidy();
  }
}

/** Leaves the text of links to other pages, and the links within the page. */
async function withoutLinksOut(page: Page): Promise<void> {
  await page.evaluate(
    `for (const link of document.querySelectorAll('a[href]:not([href^="#"]):not([href^="https:"])')) link.removeAttribute('href')`,
  );
}
