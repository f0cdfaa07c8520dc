import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { planAnswer } from '../../src/facts/plan/plan-answer.ts';
import type { TestPlan } from '../../src/facts/plan/test-plan.ts';
import { planPage } from '../../src/pages/plan-page.ts';
import { pageShell } from '../../src/pages/page-shell.ts';
import type { UnitSystem } from '../../src/units/display.ts';
import { hasChromium, startChromium } from './chromium.ts';
import { plan } from '../facts/plan/plan-sample.ts';
import { readIn, textOf } from './read-in.ts';

/** The page of that plan, or of another. */
function pageOf(units: UnitSystem, lossKgPerYear?: number, of: TestPlan = plan): Promise<string> {
  const answer = planAnswer(of, { durationsS: [300, 900, 3600, 86_400], lossKgPerYear });
  return pageShell(
    planPage(
      { plan: of, answer, assumed: new Set(['pressure', 'from']), lossKgPerYear },
      { units, dates: 'day-first' },
    ),
  );
}

describe('the page as text', () => {
  test('is the same for the same plan, and holds question, figures, what they rest on and the cautions', async () => {
    const written = await pageOf('ip', 0.1);
    expect(await pageOf('ip', 0.1)).toBe(written);
    expect(written.match(/\bsafe\b/g)).toHaveLength(1);
    const page = readIn(written, 'ip');
    expect(page).toContain('<h1>How long must a test be to see a leak of 3.5 oz a year? (0.177 ft³, R-410A)</h1>');
    for (const words of [
      'How small a leak does a test see, by its length?',
      'assumed (common practice, no source) 300.0 psig',
      'A vacuum pulls with one atmosphere only',
      'never oxygen or air',
      'no figure here says that a system is safe',
    ])
      expect(page).toContain(words);
    expect(page.match(/<table>/g)).toHaveLength(4);
    const captions = [...page.matchAll(/<caption>(.*?)<\/caption>/g)].map(([, caption]) => caption);
    expect(new Set(captions).size).toBe(4);
    expect(captions.slice(2)).toEqual([
      'Rise test from 200\u00a0µm: a climb that shows at all',
      'Rise test from 200\u00a0µm: a climb told for a leak',
    ]);
    // In the other units it says the same of the same plan, whichever it was written in first.
    expect(textOf(readIn(written, 'si'))).toBe(textOf(readIn(await pageOf('si', 0.1), 'si')));
    expect(textOf(readIn(written, 'si'))).toContain('How long must a test be to see a leak of 100 g a year?');
    // Vega's own script knows such words.
    const [own = ''] = written.split('<script>');
    expect(/undefined|NaN|Infinity/.exec(own)).toBeNull();
  });

  test('of one test alone there is no word of the other’s figures', async () => {
    const { pressureTest, riseTest, ...circuit } = plan;
    const rise = readIn(await pageOf('si', undefined, { ...circuit, riseTest }), 'si');
    expect(rise.match(/<table>/g)).toHaveLength(2);
    expect(rise).not.toContain('<caption>Pressure test');
    const pressure = readIn(await pageOf('si', undefined, { ...circuit, pressureTest }), 'si');
    expect(pressure.match(/<table>/g)).toHaveLength(1);
    expect(pressure).not.toContain('Rise test');
  });
});

if (!hasChromium) console.warn('no /usr/bin/chromium: the page is not looked at in a browser');

describe.skipIf(!hasChromium)('the page in chromium', { timeout: 60_000 }, () => {
  let browser: Browser;
  const folder = mkdtempSync(join(tmpdir(), 'dryhold-plan-'));

  beforeAll(async () => {
    browser = await startChromium();
  }, 60_000);
  afterAll(async () => {
    await browser.close();
    rmSync(folder, { recursive: true });
  });

  test.each([
    [1280, 'light', 'ip', 0.1],
    [1280, 'dark', 'si', undefined],
    [390, 'light', 'si', 0.1],
    [390, 'dark', 'ip', undefined],
  ] as const)(
    'at %i px, %s, %s: draws the chart inside its place, without complaint',
    async (width, scheme, units, loss) => {
      const file = join(folder, 'page.html');
      writeFileSync(file, await pageOf(units, loss));
      const context = await browser.newContext({ viewport: { width, height: 900 }, colorScheme: scheme });
      const page = await context.newPage();
      const complaints: string[] = [];
      page.on('console', (message) => complaints.push(message.text()));
      page.on('pageerror', (error) => complaints.push(String(error)));
      page.on('request', (request) => {
        if (!/^(file|data):/.test(request.url())) complaints.push(`asked for ${request.url()}`);
      });
      await page.goto(pathToFileURL(file).href);
      await page.waitForSelector('html[data-charts=drawn]', { state: 'attached' });
      expect(complaints).toEqual([]);
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(width);
      const chart = await page.evaluate<{
        lines: number;
        areas: number;
        over: number;
        tall: number;
        colours: string[];
      }>(
        `(() => {
        const chart = document.querySelector('[data-chart]');
        const lines = [...chart.querySelectorAll('svg .mark-line path')];
        return {
          lines: lines.length,
          areas: chart.querySelectorAll('svg .mark-area path').length,
          over: chart.querySelector('svg').getBoundingClientRect().width - chart.clientWidth,
          tall: chart.scrollHeight - parseFloat(getComputedStyle(chart).minHeight),
          colours: lines.map((line) => getComputedStyle(line).stroke),
        };
      })()`,
      );
      expect([chart.lines, chart.areas]).toEqual([6, 2]);
      expect(chart.over).toBeLessThanOrEqual(1);
      expect(chart.tall).toBeLessThanOrEqual(1);
      expect(chart.colours).toContain(scheme === 'light' ? 'rgb(28, 92, 158)' : 'rgb(127, 182, 242)');
      await page.emulateMedia({ media: 'print' });
      await page.setViewportSize({ width: 690, height: 900 });
      const right = `Math.max(...[...document.querySelectorAll('svg, table')].map((each) => each.getBoundingClientRect().right))`;
      expect(await page.evaluate<number>(right)).toBeLessThanOrEqual(691);
      await context.close();
    },
  );
});
