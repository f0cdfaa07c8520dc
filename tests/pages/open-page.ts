import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';

/** A page in a browser, and whatever went wrong with it so far. */
export interface OpenPage {
  readonly page: Page;
  readonly complaints: string[];
}

/** A new page on which nothing is open; what it says on the console, throws, asks from elsewhere or cannot load is a complaint. */
export async function watchedPage(browser: Browser, options: BrowserContextOptions): Promise<OpenPage> {
  const page = await (await browser.newContext(options)).newPage();
  const complaints: string[] = [];
  page.on('console', (message) => complaints.push(message.text()));
  page.on('pageerror', (error) => complaints.push(String(error)));
  page.on('dialog', (dialog) => {
    complaints.push(`dialog ${dialog.message()}`);
    void dialog.dismiss();
  });
  page.on('request', (request) => {
    if (!/^(file|data):/.test(request.url())) complaints.push(`asked for ${request.url()}`);
  });
  page.on('requestfailed', (request) => complaints.push(`failed: ${request.url()}`));
  return { page, complaints };
}

/** Writes a page, opens it, and waits until its charts are drawn. */
export async function openPage(
  browser: Browser,
  { file, html, width, colorScheme }: { file: string; html: string; width: number; colorScheme: 'light' | 'dark' },
): Promise<OpenPage> {
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, html);
  const opened = await watchedPage(browser, { viewport: { width, height: 900 }, colorScheme });
  await opened.page.goto(pathToFileURL(file).href);
  await opened.page.waitForSelector('html[data-charts=drawn]', { state: 'attached' });
  return opened;
}

/** How a chart was drawn: its marks, and by how much it is wider or higher than its place [px]. */
export interface DrawnChart {
  readonly marks: number;
  readonly drawn: string;
  readonly over: number;
  readonly tall: number;
}

/** All charts of a page as they were drawn. */
export function drawnCharts(page: Page): Promise<DrawnChart[]> {
  return page.evaluate<DrawnChart[]>(
    `[...document.querySelectorAll('[data-chart]')].map((chart) => ({
      marks: chart.querySelectorAll('svg .mark-symbol path, svg .mark-line path').length,
      drawn: chart.dataset.drawn,
      over: (chart.querySelector('svg')?.getBoundingClientRect().width ?? 9999) - chart.clientWidth,
      tall: chart.scrollHeight - parseFloat(getComputedStyle(chart).minHeight),
    }))`,
  );
}
