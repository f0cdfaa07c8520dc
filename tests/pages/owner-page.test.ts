import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { OwnerData } from '../../src/pages/owner-data.ts';
import { ownerPage } from '../../src/pages/owner-page.ts';
import { pageShell } from '../../src/pages/page-shell.ts';
import { ownerData } from '../../src/steps/owner-data.ts';
import type { InUnits } from '../../src/units/in-units.ts';
import { simulatedStore } from '../steps/simulated-store.ts';
import { hasChromium, startChromium } from './chromium.ts';
import { openPage } from './open-page.ts';

const folder = mkdtempSync(join(tmpdir(), 'dryhold-owner-'));
const reader = { units: 'ip', dates: 'day-first' } as const;
let data: InUnits<OwnerData>;

beforeAll(async () => {
  const store = await simulatedStore(folder, { jobs: 120, seed: 5, intervalS: 60 });
  const told = await ownerData(store, { codes: false });
  data = (units) => ({ ...told, units });
  await store.close();
}, 120_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const hostile = `<script>alert(1)</script><!--"'&<b onmouseover="alert(2)">`;

/** The data with hostile words in every text that comes from records. */
function spoilt(value: unknown, key = ''): unknown {
  const fromRecords = [
    'systemId',
    'siteId',
    'cylinderId',
    'crew',
    'name',
    'weighingId',
    'gaugeId',
    'writtenRefrigerant',
    'id',
  ];
  if (typeof value === 'string') return fromRecords.includes(key) && !isOurs(value) ? `${value} ${hostile}` : value;
  if (Array.isArray(value)) return value.map((each) => spoilt(each, key));
  if (value === null || typeof value !== 'object') return value;
  return Object.fromEntries(Object.entries(value).map(([name, each]) => [name, spoilt(each, name)]));
}

/** Words of the program's own, and months, that stand where ids do. */
function isOurs(text: string): boolean {
  return /^(\d{4}-\d{2}|missing|too-much|mistyped|misplaced|negative|overfilled|other-refrigerant|unexplained|unexplained-drift|leak-additions|applies|us-|eu-)/.test(
    text,
  );
}

describe('the page as text', () => {
  test('is the same for the same data, carries the cautions, and calls nothing safe', async () => {
    const page = await pageShell(ownerPage(data, reader));
    expect(await pageShell(ownerPage(data, reader))).toBe(page);
    for (const words of [
      'never vent',
      'no legal advice',
      'No legal advice',
      '80% of its liquid volume',
      'never with oxygen or air',
      '40 CFR 84',
      'second hand',
      'from memory',
    ])
      expect(page).toContain(words);
    expect(page.match(/\bsafe\b/g)).toHaveLength(1);
    // The scripts have such words of their own.
    expect(page.slice(0, page.indexOf('<script'))).not.toMatch(/NaN|undefined|\[object/);
    expect(page).not.toMatch(/\s(?:src|href)="(?!#|data:|(?:index|service-manager|trainer|owner)\.html")/);
  });

  test('says plainly what is not there', async () => {
    const { accounts, leaks, due, cells } = data('ip');
    const page = await pageShell(
      ownerPage(
        (units) => ({
          accounts: { ...accounts, cylinders: 0, remarked: [], needs: null, apart: [], callbackCosts: [] },
          leaks: { ...leaks, ruled: [], worth: [], chronic: [], apart: [] },
          due: { ...due, open: [], doneLate: [], calibrations: [] },
          cells: { ...cells, rows: [] },
          units,
        }),
        reader,
      ),
    );
    for (const words of [
      'No cylinder with weighings is on record',
      'No rule on leak rates applies',
      'Nothing is overdue',
      'Of no job both are known',
      'Nothing had to be kept apart',
    ])
      expect(page).toContain(words);
    // Without a chart there is no script but that which switches the units.
    expect(page.match(/<script\b/g)).toHaveLength(1);
    expect(page).not.toContain('data-chart=');
  });

  test('of cylinders in which nothing moved there are balances, and no chart by month', async () => {
    const { leaks, cells } = data('ip');
    const page = await pageShell(
      ownerPage((units) => ({ ...data(units), cells: { ...cells, rows: [] }, leaks: { ...leaks, ruled: [] } }), reader),
    );
    expect(page).toContain('By refrigerant [lb]');
    expect(page).not.toContain('data-chart=');
  });
});

if (!hasChromium) console.warn('no /usr/bin/chromium: the page is not looked at in a browser');

describe.skipIf(!hasChromium)('the page in chromium', { timeout: 60_000 }, () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await startChromium();
  }, 60_000);
  afterAll(() => browser.close());

  const open = async (shown: InUnits<OwnerData>, width: number, colorScheme: 'light' | 'dark') =>
    openPage(browser, {
      file: join(folder, 'owner.html'),
      html: await pageShell(ownerPage(shown, reader)),
      width,
      colorScheme,
    });

  test.each([
    [1280, 'light'],
    [390, 'dark'],
    [360, 'light'],
  ] as const)(
    'at %i px, %s: draws its charts, scrolls no way but down, and complains of nothing',
    async (width, scheme) => {
      const { page, complaints } = await open(data, width, scheme);
      const marks = await page.evaluate<number[]>(
        "[...document.querySelectorAll('[data-chart]')].map((chart) => chart.querySelectorAll('svg .mark-symbol path, svg .mark-rect path').length)",
      );
      expect(marks).toHaveLength(4);
      for (const count of marks) expect(count).toBeGreaterThan(2);
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(width);
      expect(complaints).toEqual([]);
      await page.context().close();
    },
  );

  test('hostile words stay words', async () => {
    const { page, complaints } = await open((units) => spoilt(data(units)) as OwnerData, 390, 'light');
    expect(await page.evaluate('document.querySelectorAll("[onmouseover], main b").length')).toBe(0);
    expect(await page.locator('.todo .job').first().textContent()).toContain('<script>');
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(390);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  test('nothing is cut off on paper', async () => {
    const { page } = await open(data, 1280, 'dark');
    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize({ width: 690, height: 900 });
    const over = `Math.max(...[...document.querySelectorAll('[data-chart] svg, .scroll > table')].map((one) => one.getBoundingClientRect().right))`;
    expect(await page.evaluate<number>(over)).toBeLessThanOrEqual(691);
    await page.context().close();
  });
});
