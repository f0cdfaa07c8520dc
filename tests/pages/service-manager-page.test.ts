import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { jobPage } from '../../src/pages/job-page.ts';
import { pageFileName } from '../../src/pages/page-file-name.ts';
import type { ServiceManagerData } from '../../src/pages/service-manager-data.ts';
import { serviceManagerPage } from '../../src/pages/service-manager-page.ts';
import { pageShell } from '../../src/pages/page-shell.ts';
import { hasChromium, startChromium } from './chromium.ts';
import { emptyManagerData } from './empty-manager-data.ts';
import { drawnCharts, openPage, type OpenPage } from './open-page.ts';
import { readIn } from './read-in.ts';
import { serviceManagerSample } from './service-manager-sample.ts';
import { spoilt } from './spoilt.ts';

const reader = { units: 'ip', dates: 'day-first' } as const;
const sample = serviceManagerSample();

/** The page of that data: the sample's, where none is given. */
const pageOf = (data: ServiceManagerData = sample): Promise<string> =>
  pageShell(serviceManagerPage(() => data, reader));

/** All months, each crew, technicians, limits, callbacks by age. */
const chartCount = 1 + 4 + 1 + 1 + 1;

describe('the page as text', () => {
  test('is the same for the same data, and below 1 MB', async () => {
    const page = await pageOf();
    expect(await pageOf(serviceManagerSample())).toBe(page);
    expect(Buffer.byteLength(page)).toBeLessThan(1_000_000);
  });

  test('allows only its own scripts and styles, by their hashes', async () => {
    const page = await pageOf();
    const [, policy = ''] = /Content-Security-Policy" content="([^"]*)"/.exec(page) ?? [];
    expect(policy).toContain('default-src &#39;none&#39;');
    expect(policy).not.toContain('unsafe');
    const inline = [...page.matchAll(/<(?:script|style)>([\s\S]*?)<\/(?:script|style)>/g)].map(([, text = '']) => text);
    expect(inline).toHaveLength(4);
    for (const text of inline) {
      expect(policy).toContain(`sha256-${createHash('sha256').update(text).digest('base64')}`);
    }
    expect(page).not.toMatch(/<[^>]+\s(?:style|on[a-z]+)=/);
    // Nothing is loaded from elsewhere; the other pages of the same folder are linked.
    const linked = '(?:index|service-manager|trainer|owner)\\.html"|jobs/[a-z0-9-]+\\.html"';
    expect(page).not.toMatch(new RegExp(`\\s(?:src|href)="(?!#|data:|${linked})`));
  });

  test('says what no score shows, the cautions, and never that a system is safe', async () => {
    const page = await pageOf();
    for (const words of ['never with oxygen or air', 'compressor', 'ignition', 'never vent', 'local codes decide']) {
      expect(page).toContain(words);
    }
    expect(page).toContain('It does not say that a system is safe');
    expect(page.match(/\bsafe\b/g)).toHaveLength(1);
    expect(page).toContain('no measure of a person');
  });

  test('says plainly what is not there', async () => {
    const page = await pageOf(emptyManagerData);
    expect(page).toContain('There are no jobs in the data.');
    expect(page).toContain('No check has run.');
    expect(page).toContain('nothing to show by month');
    expect(page).toContain('No job names a technician');
    expect(page).toContain('Nobody: no open job of the last week failed a test of its system');
    expect(page).toContain('No callback is on record');
    expect(page).toContain('No rise of the period could be held against a limit.');
    expect(page).toContain('which open jobs call back cannot be told yet');
    expect(page).toContain('Nothing to note.');
    // Without a chart there is no script but that which switches the units.
    expect(page.match(/<script>/g)).toHaveLength(1);
    expect(page).not.toContain('data-chart=');
    const [own = ''] = page.split('<script');
    expect(own).not.toMatch(/NaN|undefined|Infinity|\[object/);
    const quiet = await pageOf({ ...sample, lookAt: [] });
    expect(quiet).toContain('has a fail or suspect finding. Jobs that could not be judged are counted below.');
  });

  test('sends back first where a test found something wrong, then where the risk alone asks for it, and says what to bring', async () => {
    const page = readIn(await pageOf(), 'ip');
    const [, list = ''] = /<h2 id="first">[^]*?<ol class="plain todo">([^]*?)<\/ol>/.exec(page) ?? [];
    const entries = list.split('<li>').slice(1);
    expect(entries).toHaveLength(2);
    const [failed = '', likely = ''] = entries;
    expect(failed).toMatch(/class="tag fail">.*<\/svg>fail<[^]*Site P-118, system S-4410[^]*limit is 1 000 µm/);
    expect(failed).toContain('it calls back within 90 days in 13% of cases (8.4–20%), 4.2 times as often as any job');
    expect(failed).toContain(
      '<strong>On site:</strong> look for water and air. <strong>Bring:</strong> recovery machine',
    );
    expect(failed).toMatch(/<a class="job" href="jobs\/j-20931-[0-9a-f]{10}\.html" data-page="">Job J-20931<\/a>/);
    expect(likely).toMatch(/class="tag suspect">.*<\/svg>likely<[^]*3\.1 times as often[^]*Job J-20644/);
    // A watch list goes on where nothing is twice as likely as usual; whoever is on it for that is not sent for.
    expect(list).not.toContain('J-20701');
  });

  test('who comes after the first twelve is named all the same, in a line each', async () => {
    const [first] = sample.sendBack;
    const fourteen = Array.from({ length: 14 }, (_, at) => ({
      ...first,
      job: { ...first.job, siteId: `Q-${at + 1}` },
    }));
    const page = readIn(await pageOf({ ...sample, sendBack: fourteen, sendBackOf: 14 }), 'ip');
    const [, list = '', rest = ''] =
      /<h2 id="first">[^]*?<ol class="plain todo">([^]*?)<\/ol>([^]*?)<\/section>/.exec(page) ?? [];
    expect(list.match(/<li>/g)).toHaveLength(12);
    expect(rest).toContain('2 more jobs ask for a visit.');
    expect([...rest.matchAll(/site (Q-\d+), system S-4410: look for water and air /g)].map(([, site]) => site)).toEqual(
      ['Q-13', 'Q-14'],
    );
  });

  test('the list says of a finding no more than its first sentences', async () => {
    const [job] = sample.lookAt;
    const [finding] = job.findings;
    const long = `It leaks by 3.5 oz. It may sit in flares. ${'And so on and on it goes for ever. '.repeat(5)}`.trim();
    const told = { ...job, findings: [{ ...finding, outcome: 'fail' as const, text: long }] };
    const page = await pageOf({ ...sample, sendBack: [], lookAt: [told] });
    const [, entry = ''] = /class="plain todo">([^]*?)<\/ol>/.exec(page) ?? [];
    expect(entry).toContain('<p>It leaks by 3.5 oz. It may sit in flares. And so on');
    expect(entry).not.toContain(long);
    const itsOwn = await pageShell(
      jobPage(() => ({ ...told, policyId: 'as-recorded', policyTitle: 'As recorded' }), reader),
    );
    expect(itsOwn).toContain(long);
  });

  test('a job without a page of its own is no link', async () => {
    const page = await pageOf({ ...sample, jobPages: new Set(['J-20931']) });
    expect(page).toContain('<span class="job">Job J-20917</span>');
    expect(page.match(/href="jobs\//g)).toHaveLength(1);
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

  /** Opens the page of some data, with the pages of the jobs it looks at beside it. */
  async function open(data: ServiceManagerData, width: number, colorScheme: 'light' | 'dark', planted = '') {
    mkdirSync(join(folder, 'jobs'), { recursive: true });
    for (const job of data.lookAt) {
      const judged = { ...job, policyId: data.policyId, policyTitle: data.policyTitle };
      writeFileSync(
        join(folder, 'jobs', pageFileName(job.jobId)),
        await pageShell(jobPage(() => judged, reader, 'in-report')),
      );
    }
    const html = (await pageOf(data)).replace('</body>', `${planted}</body>`);
    return openPage(browser, { file: join(folder, 'service-manager.html'), html, width, colorScheme });
  }

  const evaluate = <Result>(page: Page, script: string) => page.evaluate<Result>(script);

  test.each([
    [1280, 'light'],
    [1280, 'dark'],
    [390, 'light'],
    [390, 'dark'],
  ] as const)('at %i px, %s: draws every chart inside its place, without complaint', async (width, scheme) => {
    const { page, complaints } = await open(sample, width, scheme);
    expect(complaints).toEqual([]);
    const charts = await drawnCharts(page);
    expect(charts).toHaveLength(chartCount);
    for (const chart of charts) {
      expect(chart.drawn).toBe('yes');
      expect(chart.marks).toBeGreaterThan(0);
      expect(chart.over).toBeLessThanOrEqual(1);
      expect(chart.tall).toBeLessThanOrEqual(1);
    }
    expect(await evaluate(page, 'document.documentElement.scrollWidth')).toBe(width);
    const dot = "getComputedStyle(document.querySelector('#months ~ .multiples [data-chart] .mark-symbol path')).fill";
    expect(await evaluate(page, dot)).toBe(scheme === 'light' ? 'rgb(28, 92, 158)' : 'rgb(127, 182, 242)');
    await page.context().close();
  });

  test.each([
    ['script', '<script>alert(1)</script>'],
    ['style', '<p style="color:red">red</p>'],
    ['image from elsewhere', '<img src="https://example.invalid/a.png" alt="">'],
  ])('the guard proves itself: a planted %s is refused and noticed', async (_, planted) => {
    const { page, complaints } = await open(sample, 390, 'light', planted);
    expect(complaints.join()).toContain('Content Security Policy');
    expect(complaints.join()).not.toContain('dialog');
    await page.context().close();
  });

  /** Follows a link to the page of a job, and gives its heading. */
  async function follow({ page }: OpenPage, click: () => Promise<void>): Promise<string> {
    await Promise.all([page.waitForURL(/\/jobs\//), click()]);
    return evaluate<string>(page, "document.querySelector('h1').textContent");
  }

  test('the list leads to the evidence, and the evidence back', async () => {
    const opened = await open(sample, 390, 'light');
    const { page, complaints } = opened;
    const heading = await follow(opened, () => page.click('section:has(#flagged) >> text=Job J-20917'));
    expect(heading).toBe('What was found on job J-20917');
    await Promise.all([page.waitForURL(/service-manager\.html$/), page.click('.places >> text=Service manager')]);
    expect(await page.textContent('h1')).toBe('Whom to send back, and what the checks found');
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  test.each([1280, 390])('hostile words stay words at %i px, and their links work', async (width) => {
    const data = spoilt(sample);
    const opened = await open(data, width, 'light');
    const { page, complaints } = opened;
    // Three that run, and the charts and tables.
    expect(await evaluate(page, 'document.querySelectorAll("script").length')).toBe(5);
    expect(await evaluate(page, 'document.querySelectorAll("[onmouseover], main b").length')).toBe(0);
    const [failed, likely] = data.sendBack;
    expect(await page.locator('.todo .job').first().textContent()).toBe(`Job ${failed.job.jobId}`);
    expect(await page.locator('.todo .job').nth(1).textContent()).toBe(`Job ${likely.job.jobId}`);
    expect(await evaluate(page, 'document.documentElement.scrollWidth')).toBe(width);
    const heading = await follow(opened, () => page.locator('.todo .job').first().click());
    expect(heading).toBe(`What was found on job ${failed.job.jobId}`);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  test('charts fit the paper when a wide page is printed', async () => {
    const { page, complaints } = await open(sample, 1280, 'dark');
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
    const { page, complaints } = await open(sample, 1280, 'light');
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
    expect(drawnAtOnce).toEqual(['no', ...Array.from({ length: chartCount - 1 }, () => 'yes')]);
    expect(await page.locator('[data-chart]').first().textContent()).toBe('This chart could not be drawn.');
    expect(complaints).toHaveLength(1);
    await page.context().close();
  });

  test('everything to press can be reached by keyboard and has a name', async () => {
    const { page } = await open(sample, 1280, 'light');
    const nameless = `[...document.querySelectorAll('a, summary, button, select, input, [role=img], [role=region]')].filter((element) =>
      !(element.getAttribute('aria-label') ?? element.closest('label')?.textContent ?? element.textContent).trim()).length`;
    expect(await evaluate(page, nameless)).toBe(0);
    const levels = await evaluate<number[]>(
      page,
      "[...document.querySelectorAll('h1,h2,h3,h4')].map((h) => +h.tagName[1])",
    );
    expect(levels[0]).toBe(1);
    levels.forEach((level, index) => expect(level - (levels[index - 1] ?? 0)).toBeLessThanOrEqual(1));
    // The other pages, the units, and then what is on this page.
    const reached: string[] = [];
    for (let tab = 0; tab < 6; tab++) {
      await page.keyboard.press('Tab');
      reached.push(await evaluate(page, "document.activeElement.closest('label, a').textContent"));
    }
    expect(reached).toEqual(['Start', 'Service manager', 'Trainer', 'Owner', 'microns, °F, oz', 'Send back']);
    await page.context().close();
  });
});
