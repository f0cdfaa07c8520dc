import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { report } from '../../../src/steps/report.ts';
import type { Store } from '../../../src/store/store.ts';
import { startChromium } from '../chromium.ts';
import { type OpenPage, watchedPage } from '../open-page.ts';

export interface OpenOptions {
  readonly width?: number;
  readonly height?: number;
  readonly scheme?: 'light' | 'dark';
  /** What stands after the question mark of the address. */
  readonly query?: string;
  /** As it is laid out from the beginning. */
  readonly media?: 'print' | 'screen';
  /** Lets a test's own script in, which the page's policy would refuse. */
  readonly bypassCSP?: boolean;
}

/** A report in a folder, with the store it was made from and a browser to look at its pages. */
export class OpenedReport {
  readonly store: Store;
  readonly folder: string;
  readonly #browser: Browser;
  readonly #around: string;

  private constructor(store: Store, around: string, browser: Browser) {
    this.store = store;
    this.#around = around;
    this.folder = join(around, 'report');
    this.#browser = browser;
  }

  /** Makes a report of the store that is made in a folder for it. */
  static async of(makeStore: (folder: string) => Promise<Store>): Promise<OpenedReport> {
    const around = mkdtempSync(join(tmpdir(), 'dryhold-report-pages-'));
    const store = await makeStore(around);
    const opened = new OpenedReport(store, around, await startChromium());
    await report(store, opened.folder, { reader: { units: 'ip', dates: 'month-first' }, codes: false });
    return opened;
  }

  async close(): Promise<void> {
    await this.#browser.close();
    await this.store.close();
    rmSync(this.#around, { recursive: true });
  }

  /** Opens a page by its file and waits until its charts are drawn. */
  async open(
    file: string,
    { width = 1280, height = 900, scheme = 'light', media = 'screen', query = '', bypassCSP = false }: OpenOptions = {},
  ): Promise<OpenPage> {
    const opened = await watchedPage(this.#browser, { viewport: { width, height }, colorScheme: scheme, bypassCSP });
    await opened.page.emulateMedia({ media });
    await opened.page.goto(`${pathToFileURL(join(this.folder, file)).href}${query === '' ? '' : `?${query}`}`);
    await drawn(opened.page);
    return opened;
  }

  /** Opens any file. */
  async openFile(path: string): Promise<OpenPage> {
    const opened = await watchedPage(this.#browser, {});
    await opened.page.goto(pathToFileURL(path).href);
    return opened;
  }

  /** Every kind of page: start, readers, a sheet with charts and one without, the jobs with the most, the fewest and a middling number of charts. */
  kinds(): string[] {
    const [sheets, jobs] = ['sheets', 'jobs'].map((folder) => {
      const files = readdirSync(join(this.folder, folder)).map((name) => `${folder}/${name}`);
      return files.map((file) => ({ file, charts: this.text(file).split(' data-chart="').length - 1 }));
    });
    const byCharts = jobs.sort((a, b) => b.charts - a.charts);
    const some = [
      sheets.find(({ charts }) => charts > 0),
      sheets.find(({ charts }) => charts === 0),
      byCharts[0],
      byCharts[Math.floor(byCharts.length / 2)],
      byCharts.at(-1),
    ];
    return [...readers, ...some.flatMap((one) => (one === undefined ? [] : [one.file]))];
  }

  /** A page as it was written. */
  text(file: string): string {
    return readFileSync(join(this.folder, file), 'utf8');
  }
}

export const readers = ['index.html', 'service-manager.html', 'trainer.html', 'owner.html'];

/** Waits until every chart of a page is drawn. */
export async function drawn(page: Page): Promise<void> {
  await page.waitForSelector('html[data-charts=drawn]', { state: 'attached' });
}

/** Lets charts take up what was chosen: each runs in a turn of its own. */
export function settled(page: Page): Promise<unknown> {
  return page.evaluate('new Promise((done) => setTimeout(() => requestAnimationFrame(() => setTimeout(done)), 30))');
}
