import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { ServiceManagerData } from '../../src/pages/service-manager-data.ts';
import { renderServiceManagerPage } from '../../src/pages/service-manager-page.ts';
import { hasChromium, startChromium } from './chromium.ts';
import { serviceManagerSample } from './service-manager-sample.ts';

const hostile = `<script>alert(1)</script></script><!--"'&\u2028<b onmouseover="alert(2)">`;

/** The sample with hostile words in every text that comes from data. */
function hostileSample(): ServiceManagerData {
  const sample = serviceManagerSample();
  const spoil = (value: unknown, key: string): unknown => {
    const kept = ['outcome', 'phase', 'units', 'month', 'from', 'to', 'startedAt'];
    if (typeof value === 'string') return kept.includes(key) ? value : `${value} ${hostile}`;
    if (Array.isArray(value)) return value.map((each) => spoil(each, key));
    if (value !== null && typeof value === 'object') {
      return Object.fromEntries(Object.entries(value).map(([name, each]) => [name, spoil(each, name)]));
    }
    return value;
  };
  return spoil(sample, '') as ServiceManagerData;
}

const empty: ServiceManagerData = {
  ...serviceManagerSample(),
  jobs: 0,
  jobsJudged: 0,
  jobsFlagged: 0,
  checks: [],
  monthly: [],
  technicians: [],
  lookAt: [],
  notes: [],
};

describe('the page as text', () => {
  test('is the same for the same data, and below 1 MB without traces', async () => {
    const sample = serviceManagerSample();
    const bare = { ...sample, lookAt: sample.lookAt.map((job) => ({ ...job, trace: null, pressureTest: null })) };
    const page = await renderServiceManagerPage(bare);
    expect(await renderServiceManagerPage(bare)).toBe(page);
    expect(Buffer.byteLength(page)).toBeLessThan(1_000_000);
  });

  test('allows only its own scripts and styles, by their hashes', async () => {
    const page = await renderServiceManagerPage(serviceManagerSample());
    const [, policy = ''] = /Content-Security-Policy" content="([^"]*)"/.exec(page) ?? [];
    expect(policy).toContain('default-src &#39;none&#39;');
    expect(policy).not.toContain('unsafe');
    const inline = [...page.matchAll(/<(?:script|style)>([\s\S]*?)<\/(?:script|style)>/g)].map(([, text = '']) => text);
    expect(inline).toHaveLength(4);
    for (const text of inline) {
      expect(policy).toContain(`sha256-${createHash('sha256').update(text).digest('base64')}`);
    }
    expect(page).not.toMatch(/<[^>]+\s(?:style|on[a-z]+)=/);
    // Nothing is loaded from elsewhere; the other page of the same folder is linked.
    expect(page).not.toMatch(/\s(?:src|href)="(?!#|data:|owner\.html")/);
  });

  test('says what no score shows, the cautions, and never that a system is safe', async () => {
    const page = await renderServiceManagerPage(serviceManagerSample());
    for (const words of ['never with oxygen or air', 'compressor', 'ignition', 'never vent', 'local codes decide']) {
      expect(page).toContain(words);
    }
    expect(page).toContain('It does not say that a system is safe');
    expect(page.match(/\bsafe\b/g)).toHaveLength(1);
    expect(page).toContain('no measure of a person');
  });

  test('says plainly what is not there', async () => {
    const page = await renderServiceManagerPage(empty);
    expect(page).toContain('There are no jobs in the data.');
    expect(page).toContain('No check has run.');
    expect(page).toContain('nothing to show by month');
    expect(page).toContain('No job names a technician');
    expect(page).not.toContain('<script');
    const quiet = await renderServiceManagerPage({ ...serviceManagerSample(), lookAt: [] });
    expect(quiet).toContain('has a fail or suspect finding. Jobs that could not be judged are counted below.');
  });
});

if (!hasChromium) console.warn('no /usr/bin/chromium: the page is not looked at in a browser');

describe.skipIf(!hasChromium)('the page in chromium', { timeout: 60_000 }, () => {
  let browser: Browser;
  const folder = mkdtempSync(join(tmpdir(), 'dryhold-page-'));

  beforeAll(async () => {
    browser = await startChromium();
  }, 60_000);
  afterAll(async () => {
    await browser.close();
    rmSync(folder, { recursive: true });
  });

  /** Opens the page of some data and waits until its charts are drawn; complaints hold whatever went wrong. */
  async function open(data: ServiceManagerData, width: number, colorScheme: 'light' | 'dark', planted = '') {
    const file = join(folder, 'page.html');
    writeFileSync(file, (await renderServiceManagerPage(data)).replace('</body>', `${planted}</body>`));
    const context = await browser.newContext({ viewport: { width, height: 900 }, colorScheme });
    const page = await context.newPage();
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
    await page.goto(pathToFileURL(file).href);
    await page.waitForSelector('html[data-charts=drawn]', { state: 'attached' });
    return { page, complaints };
  }

  const evaluate = <Result>(page: Page, script: string) => page.evaluate<Result>(script);

  test.each([
    [1280, 'light'],
    [1280, 'dark'],
    [390, 'light'],
    [390, 'dark'],
  ] as const)('at %i px, %s: draws every chart inside its place, without complaint', async (width, scheme) => {
    const { page, complaints } = await open(serviceManagerSample(), width, scheme);
    expect(complaints).toEqual([]);
    const charts = await evaluate<{ marks: number; drawn: string; over: number; tall: number }[]>(
      page,
      `[...document.querySelectorAll('[data-chart]')].map((chart) => ({
        marks: chart.querySelectorAll('svg .mark-symbol path, svg .mark-line path').length,
        drawn: chart.dataset.drawn,
        over: (chart.querySelector('svg')?.getBoundingClientRect().width ?? 9999) - chart.clientWidth,
        tall: chart.scrollHeight - parseFloat(getComputedStyle(chart).minHeight),
      }))`,
    );
    // Crews, technicians, two vacuums with their rises, one pressure test with its hold, one weigh-in, one run.
    expect(charts).toHaveLength(4 + 1 + 2 * 2 + 2 + 2);
    for (const chart of charts) {
      expect(chart.drawn).toBe('yes');
      expect(chart.marks).toBeGreaterThan(0);
      expect(chart.over).toBeLessThanOrEqual(1);
      expect(chart.tall).toBeLessThanOrEqual(1);
    }
    expect(await evaluate(page, 'document.documentElement.scrollWidth')).toBe(width);
    const line = "getComputedStyle(document.querySelector('[data-chart] .mark-symbol path')).fill";
    expect(await evaluate(page, line)).toBe(scheme === 'light' ? 'rgb(28, 92, 158)' : 'rgb(127, 182, 242)');
    await page.context().close();
  });

  test.each([
    ['script', '<script>alert(1)</script>'],
    ['style', '<p style="color:red">red</p>'],
    ['image from elsewhere', '<img src="https://example.invalid/a.png" alt="">'],
  ])('the guard proves itself: a planted %s is refused and noticed', async (_, planted) => {
    const { page, complaints } = await open(serviceManagerSample(), 390, 'light', planted);
    expect(complaints.join()).toContain('Content Security Policy');
    expect(complaints.join()).not.toContain('dialog');
    await page.context().close();
  });

  test('the list leads to the evidence', async () => {
    const { page } = await open(serviceManagerSample(), 390, 'light');
    await page.click('a[href="#job-J-20917"]');
    expect(new URL(page.url()).hash).toBe('#job-J-20917');
    const top = await evaluate<number>(page, "document.querySelector(':target').getBoundingClientRect().top");
    expect(top).toBeGreaterThanOrEqual(0);
    expect(top).toBeLessThan(200);
    await page.context().close();
  });

  test.each([1280, 390])('hostile words stay words at %i px, and their links work', async (width) => {
    const data = hostileSample();
    const { page, complaints } = await open(data, width, 'light');
    expect(await evaluate(page, 'document.querySelectorAll("script").length')).toBe(4);
    expect(await evaluate(page, 'document.querySelectorAll("[onmouseover], main b").length')).toBe(0);
    expect(await page.locator('.todo .job').first().textContent()).toBe(`Job ${data.lookAt[0]?.jobId}`);
    await page.locator('.todo .job').nth(1).click();
    expect(await evaluate(page, "document.querySelector(':target h3').textContent")).toBe(
      `Job ${data.lookAt[1]?.jobId}`,
    );
    expect(await evaluate(page, 'document.documentElement.scrollWidth')).toBe(width);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  test('charts fit the paper when a wide page is printed', async () => {
    const { page, complaints } = await open(serviceManagerSample(), 1280, 'dark');
    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize({ width: 690, height: 900 });
    const over = `Math.max(...[...document.querySelectorAll('[data-chart] svg')].map((svg) => svg.getBoundingClientRect().right))`;
    expect(await evaluate<number>(page, over)).toBeLessThanOrEqual(691);
    // Paper is light whatever the screen is.
    expect(await evaluate(page, 'getComputedStyle(document.body).color')).toBe('rgb(27, 32, 38)');
    expect((await page.pdf({ format: 'Letter' })).length).toBeGreaterThan(10_000);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  test('printing draws what is not drawn yet, and a chart that cannot be drawn says so', async () => {
    // Runs the page's own script again (its hash allows it) on a spoilt first chart, and prints at once.
    const { page, complaints } = await open(serviceManagerSample(), 1280, 'light');
    const drawnAtOnce = await evaluate(
      page,
      `(() => {
        const places = [...document.querySelectorAll('[data-chart]')];
        for (const place of places) {
          place.textContent = '';
          delete place.dataset.drawn;
        }
        const charts = document.getElementById('charts');
        charts.textContent = JSON.stringify(['spoilt', ...JSON.parse(charts.textContent).slice(1)]);
        const again = document.createElement('script');
        again.textContent = [...document.scripts].at(-1).textContent;
        document.body.append(again);
        window.dispatchEvent(new Event('beforeprint'));
        return places.map((place) => place.dataset.drawn);
      })()`,
    );
    expect(drawnAtOnce).toEqual(['no', ...Array.from({ length: 12 }, () => 'yes')]);
    expect(await page.locator('[data-chart]').first().textContent()).toBe('This chart could not be drawn.');
    expect(complaints).toHaveLength(1);
    await page.context().close();
  });

  test('everything to press can be reached by keyboard and has a name', async () => {
    const { page } = await open(serviceManagerSample(), 1280, 'light');
    const nameless = `[...document.querySelectorAll('a, summary, [role=img], [role=region]')].filter((element) =>
      !(element.getAttribute('aria-label') ?? element.textContent).trim()).length`;
    expect(await evaluate(page, nameless)).toBe(0);
    const levels = await evaluate<number[]>(
      page,
      "[...document.querySelectorAll('h1,h2,h3,h4')].map((h) => +h.tagName[1])",
    );
    expect(levels[0]).toBe(1);
    levels.forEach((level, index) => expect(level - (levels[index - 1] ?? 0)).toBeLessThanOrEqual(1));
    await page.keyboard.press('Tab');
    expect(await evaluate(page, 'document.activeElement.textContent')).toBe('What to do first');
    await page.context().close();
  });
});
