import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { CoachReport } from '../../src/pages/coach-data.ts';
import { coachPage } from '../../src/pages/coach-page.ts';
import { pageShell } from '../../src/pages/page-shell.ts';
import { coachReport } from '../../src/steps/coach-report.ts';
import type { Store } from '../../src/store/store.ts';
import type { UnitSystem } from '../../src/units/display.ts';
import type { InUnits } from '../../src/units/in-units.ts';
import { simulatedStore } from '../steps/simulated-store.ts';
import { hasChromium, startChromium } from './chromium.ts';

const folder = mkdtempSync(join(tmpdir(), 'dryhold-coach-'));
let store: Store;
let reports: InUnits<CoachReport>[];
const reader = { units: 'ip', dates: 'day-first' } as const;

beforeAll(async () => {
  store = await simulatedStore(folder, { jobs: 900, seed: 2, intervalS: 10 });
  reports = [];
  // Vacuum, charge, pressure tests and runs lead the sheets of these.
  for (const who of ['t05', 't02', 't07', 'crew-dogwood'])
    reports.push(await coachReport(store, who, { codes: false }));
}, 240_000);

afterAll(async () => {
  await store.close();
  rmSync(folder, { recursive: true });
});

describe('the sheet as text', () => {
  test('is the same for the same report, and has topics, what to practise, and what it is not for', async () => {
    for (const report of reports) {
      const page = await pageShell(coachPage(report, reader));
      expect(await pageShell(coachPage(report, reader))).toBe(page);
      for (const words of [
        'What to practise',
        'What is going well',
        'not for pay or discipline',
        'dry nitrogen only, never with oxygen',
      ])
        expect(page).toContain(words);
      expect(page.match(/<h2 id="topic-/g)).toHaveLength(report('ip').topics.length);
      const [own = ''] = page.split('<script>');
      expect(/undefined|NaN|Infinity|\[object/.exec(own)).toBeNull();
      expect(own.replaceAll(/says? that a system is safe/g, '')).not.toMatch(/(is|are) safe/);
    }
  });

  test('shows every kind of recording in one of them', () => {
    const shown = new Set(
      reports.flatMap((report) =>
        report('ip').topics.flatMap(({ pair }) => (pair === null ? [] : [pair.shown.quantity])),
      ),
    );
    expect(shown).toContain('vacuum');
    expect(shown).toContain('charge');
  });

  test('what comes from a record is no markup', async () => {
    const spoilt = (units: UnitSystem): CoachReport => {
      const report = reports[0](units);
      const [topic] = report.topics;
      const jobs = topic.jobs.map((job) => ({ ...job, jobId: '<img src=x onerror=alert(1)>', text: '<b>bold</b>' }));
      return { ...report, topics: [{ ...topic, jobs }] };
    };
    expect(spoilt('ip').topics[0].jobs.length).toBeGreaterThan(0);
    const page = await pageShell(coachPage(spoilt, reader));
    expect(page).toContain('&lt;img src=x');
    expect(page).not.toContain('<img src=x');
    expect(page).not.toContain('<b>bold');
  });

  test('of somebody without any excess says so', async () => {
    const [report] = reports;
    const quiet = (units: UnitSystem): CoachReport => ({ ...report(units), topics: [], goingWell: [] });
    const page = await pageShell(coachPage(quiet, { ...reader, units: 'si' }));
    expect(page).toContain('in no skill was more found');
    expect(page).toContain('In no skill was surely less found');
  });
});

if (!hasChromium) console.warn('no /usr/bin/chromium: the sheet is not looked at in a browser');

describe.skipIf(!hasChromium)('the sheet in chromium', { timeout: 90_000 }, () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await startChromium();
  }, 60_000);
  afterAll(async () => browser.close());

  test.each([
    [1280, 'light', 'ip'],
    [1280, 'dark', 'si'],
    [390, 'light', 'si'],
    [390, 'dark', 'ip'],
  ] as const)(
    'at %i px, %s, %s: draws what it has, inside its place, without complaint',
    async (width, scheme, units) => {
      for (const report of reports) {
        const file = join(folder, 'sheet.html');
        writeFileSync(file, await pageShell(coachPage(report, { ...reader, units })));
        const context = await browser.newContext({ viewport: { width, height: 900 }, colorScheme: scheme });
        const page = await context.newPage();
        const complaints: string[] = [];
        page.on('console', (message) => complaints.push(message.text()));
        page.on('pageerror', (error) => complaints.push(String(error)));
        page.on('request', (request) => {
          if (!/^(file|data):/.test(request.url())) complaints.push(`asked for ${request.url()}`);
        });
        await page.goto(pathToFileURL(file).href);
        const charts = await page.evaluate<number>("document.querySelectorAll('[data-chart]').length");
        if (charts > 0) await page.waitForSelector('html[data-charts=drawn]', { state: 'attached' });
        expect(complaints).toEqual([]);
        expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(width);
        const empty =
          "[...document.querySelectorAll('[data-chart]')].filter((chart) => chart.querySelectorAll('svg .mark-line path').length === 0).length";
        expect(await page.evaluate<number>(empty)).toBe(0);
        await page.emulateMedia({ media: 'print' });
        await page.setViewportSize({ width: 690, height: 900 });
        const right = `Math.max(...[...document.querySelectorAll('svg, table')].map((each) => each.getBoundingClientRect().right))`;
        expect(await page.evaluate<number>(right)).toBeLessThanOrEqual(691);
        await context.close();
      }
    },
  );
});
