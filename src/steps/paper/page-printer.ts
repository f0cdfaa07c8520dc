import type { Browser, Page } from 'playwright-core';
import { DryholdError } from '../../errors.ts';
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
  readonly #browser: Browser;
  readonly #paper: Paper;

  private constructor(browser: Browser, paper: Paper) {
    this.#browser = browser;
    this.#paper = paper;
  }

  /**
   * Starts the browser.
   *
   * @throws DryholdError `browser-missing`
   */
  static async open(paper: Paper): Promise<PagePrinter> {
    const executablePath = installedBrowser();
    const { chromium } = await import('playwright-core');
    try {
      const browser = await chromium.launch({
        executablePath,
        headless: true,
        // Under root, as in a container, it does not start otherwise; what it opens are pages of our own that load nothing.
        chromiumSandbox: process.getuid?.() !== 0,
        args: ['--disable-background-networking', '--disable-component-update', '--disable-sync', '--no-first-run'],
        handleSIGINT: false,
        handleSIGTERM: false,
        handleSIGHUP: false,
      });
      return new PagePrinter(browser, paper);
    } catch (error) {
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
    const context = await this.#browser.newContext({ viewport: { width, height: 900 }, colorScheme: 'light' });
    try {
      const page = await context.newPage();
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
      await context.close();
    }
  }

  async close(): Promise<void> {
    await this.#browser.close();
  }
}

/** Leaves the text of links to other pages, and the links within the page. */
async function withoutLinksOut(page: Page): Promise<void> {
  await page.evaluate(
    `for (const link of document.querySelectorAll('a[href]:not([href^="#"]):not([href^="https:"])')) link.removeAttribute('href')`,
  );
}
