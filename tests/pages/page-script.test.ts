import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { technicianRates } from '../../src/charts/technician-rates.ts';
import { filterBar } from '../../src/pages/filter-bar.ts';
import { html } from '../../src/pages/html.ts';
import { pageShell } from '../../src/pages/page-shell.ts';
import { hasChromium, startChromium } from './chromium.ts';
import { openPage } from './open-page.ts';

const cells = [
  { month: '2026-01', crew: 'elm', technician: 'Ash', refrigerant: 'R-32', jobs: 4, judged: 3, flagged: 1 },
  { month: '2026-01', crew: 'oak', technician: 'Ash', refrigerant: 'R-32', jobs: 9, judged: 8, flagged: 2 },
];

/** A page with one chart, on which only a crew can be chosen. */
const page = () =>
  pageShell({
    title: 'of two crews',
    description: 'of two crews',
    reader: { units: 'ip', dates: 'day-first' },
    body: async (_, charts) => {
      charts.addTable('job-cells', cells);
      const choices = {
        crews: ['elm', 'oak'],
        technicians: ['Ash'],
        refrigerants: ['R-32'],
        months: ['2026-01'],
        grain: 'month',
      } as const;
      return html`<main><h1>of two crews</h1>${filterBar({ ...choices, counted: { table: 'job-cells', field: 'jobs', noun: 'jobs' } })}${await charts.figure({ name: 'technician-rates', title: 'flagged', chart: technicianRates({ technicians: ['Ash'] }), description: 'flagged', heightPx: 100 })}</main>`;
    },
  });

if (!hasChromium) console.warn('no /usr/bin/chromium: the page is not looked at in a browser');

describe.skipIf(!hasChromium)('a page on which not all can be chosen', { timeout: 60_000 }, () => {
  let browser: Browser;
  const folder = mkdtempSync(join(tmpdir(), 'dryhold-page-script-'));
  const file = join(folder, 'page.html');

  beforeAll(async () => {
    browser = await startChromium();
  });
  afterAll(async () => {
    await browser.close();
    rmSync(folder, { recursive: true });
  });

  const shown = async (one: Page) => [
    await one.textContent('#filters output'),
    (await one.textContent('[data-chart] svg'))?.match(/\d+ of \d+/)?.[0],
  ];

  test('counts what passes, by what can be chosen', async () => {
    const { page: one, complaints } = await openPage(browser, {
      file,
      html: await page(),
      width: 800,
      colorScheme: 'light',
    });
    expect(await shown(one)).toEqual(['13 of 13 jobs', '3 of 11']);
    await one.selectOption('select[name=crew]', 'oak');
    await one.waitForFunction("document.querySelector('[data-chart] svg').textContent.includes('2 of 8')");
    expect(await shown(one)).toEqual(['9 of 13 jobs', '2 of 8']);
    // Both, as an address has them: what is in view is drawn at once.
    await one.goto(`${pathToFileURL(file).href}?units=si&crew=elm`);
    await one.waitForSelector('html[data-charts=drawn]', { state: 'attached' });
    expect(await shown(one)).toEqual(['4 of 13 jobs', '1 of 3']);
    expect(complaints).toEqual([]);
    await one.context().close();
  });
});
