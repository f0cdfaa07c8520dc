import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type JudgedJob, jobPage } from '../../src/pages/job-page.ts';
import { pageShell } from '../../src/pages/page-shell.ts';
import type { UnitSystem } from '../../src/units/display.ts';
import { hasChromium, startChromium } from './chromium.ts';
import { sampleJobs } from './job-sample.ts';
import { drawnCharts, openPage } from './open-page.ts';
import { spoilt } from './spoilt.ts';

const [full, bare, blank] = sampleJobs().map(
  (job): JudgedJob => ({ ...job, policyId: 'as-recorded', policyTitle: 'As recorded' }),
);
const pageOf = (job: JudgedJob, units: UnitSystem = 'ip', place?: 'in-report' | 'alone'): Promise<string> =>
  pageShell(jobPage(() => job, { units, dates: 'day-first' }, place));

/** Two of the pressure test, the vacuum and its rise, the weigh-in, the run, and where it was on the curve. */
const chartsOf = { full: 2 + 2 + 1 + 2, bare: 2 } as const;

describe('the page as text', () => {
  test('is the same for the same job, carries the cautions, and calls nothing safe', async () => {
    for (const job of [full, bare, blank]) {
      const page = await pageOf(job);
      expect(await pageOf(job)).toBe(page);
      for (const words of ['never with oxygen or air', 'compressor', 'ignition', 'never vent', 'local codes decide'])
        expect(page).toContain(words);
      expect(page).toContain('It does not say that a system is safe');
      expect(page.match(/\bsafe\b/g)).toHaveLength(1);
      const [own = ''] = page.split('<script');
      expect(own).not.toMatch(/NaN|undefined|Infinity|\[object/);
      expect(page).toContain(`What was found on job ${job.jobId}`);
      expect(page).toContain('judged by the policy “As recorded” (as-recorded)');
    }
  });

  test('without any recording says so, and has no chart', async () => {
    const page = await pageOf(blank);
    expect(page).toContain('No vacuum recording came with this job.');
    expect(page).not.toContain('data-chart=');
    expect(page.match(/<script>/g)).toHaveLength(1);
  });

  test('is linked with the other pages of a report, and with none where it stands alone', async () => {
    const links = (page: string) => [...page.matchAll(/<a href="([^"#]+)"/g)].map(([, href]) => href);
    expect(links(await pageOf(full))).toEqual([]);
    expect(links(await pageOf(full, 'ip', 'in-report'))).toEqual(
      ['index', 'service-manager', 'trainer', 'owner'].map((name) => `../${name}.html`),
    );
  });
});

if (!hasChromium) console.warn('no /usr/bin/chromium: the page is not looked at in a browser');

describe.skipIf(!hasChromium)('the page in chromium', { timeout: 60_000 }, () => {
  let browser: Browser;
  const folder = mkdtempSync(join(tmpdir(), 'dryhold-job-page-'));

  beforeAll(async () => {
    browser = await startChromium();
  }, 60_000);
  afterAll(async () => {
    await browser.close();
    rmSync(folder, { recursive: true });
  });

  const open = (html: string, width: number, colorScheme: 'light' | 'dark') =>
    openPage(browser, { file: join(folder, 'job.html'), html, width, colorScheme });

  test.each([
    [1280, 'light', 'ip', 'full'],
    [1280, 'dark', 'si', 'full'],
    [390, 'light', 'si', 'full'],
    [390, 'dark', 'ip', 'full'],
    [390, 'light', 'ip', 'bare'],
  ] as const)(
    'at %i px, %s, %s: draws every chart of the %s job inside its place, without complaint',
    async (width, scheme, units, which) => {
      const { page, complaints } = await open(await pageOf({ full, bare }[which], units), width, scheme);
      expect(complaints).toEqual([]);
      const charts = await drawnCharts(page);
      expect(charts).toHaveLength(chartsOf[which]);
      for (const chart of charts) {
        expect(chart.drawn).toBe('yes');
        expect(chart.marks).toBeGreaterThan(0);
        expect(chart.over).toBeLessThanOrEqual(1);
        expect(chart.tall).toBeLessThanOrEqual(1);
      }
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(width);
      await page.context().close();
    },
  );

  test.each([1280, 390])('hostile words stay words at %i px', async (width) => {
    const job = spoilt(full);
    const { page, complaints } = await open(await pageOf(job), width, 'light');
    // Three that run, and the charts.
    expect(await page.evaluate('document.querySelectorAll("script").length')).toBe(4);
    expect(await page.evaluate('document.querySelectorAll("[onmouseover], main b").length')).toBe(0);
    expect(await page.textContent('h1')).toBe(`What was found on job ${job.jobId}`);
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(width);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  test('charts fit the paper when a wide page is printed', async () => {
    const { page, complaints } = await open(await pageOf(full), 1280, 'dark');
    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize({ width: 690, height: 900 });
    const over = `Math.max(...[...document.querySelectorAll('[data-chart] svg')].map((svg) => svg.getBoundingClientRect().right))`;
    expect(await page.evaluate<number>(over)).toBeLessThanOrEqual(691);
    expect(await page.evaluate('getComputedStyle(document.body).color')).toBe('rgb(27, 32, 38)');
    expect((await page.pdf({ format: 'Letter' })).length).toBeGreaterThan(10_000);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  test('everything to press has a name, and no heading leaves out a level', async () => {
    const { page } = await open(await pageOf(full, 'ip', 'in-report'), 1280, 'light');
    const nameless = `[...document.querySelectorAll('a, summary, [role=img], [role=region]')].filter((element) =>
      !(element.getAttribute('aria-label') ?? element.textContent).trim()).length`;
    expect(await page.evaluate(nameless)).toBe(0);
    const levels = await page.evaluate<number[]>(
      "[...document.querySelectorAll('h1,h2,h3,h4')].map((h) => +h.tagName[1])",
    );
    expect(levels[0]).toBe(1);
    levels.forEach((level, index) => expect(level - (levels[index - 1] ?? 0)).toBeLessThanOrEqual(1));
    await page.context().close();
  });
});
