// Takes the pictures of the README from the pages of a demo: `npm run pictures`, into docs/pictures. Each shows the head of a
// page and, of all that is below, what tells the idea of that page; nothing is drawn or written in. `-- --report FOLDER`
// takes them from a demo's report that is there already.
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import type { Browser } from 'playwright-core';
import { startChromium } from '../pages/chromium.ts';
import { watchedPage } from '../pages/open-page.ts';

/** A picture: of which page, and what of its main part is left standing; a place that is not there is an error. */
interface Picture {
  readonly name: string;
  readonly page: string;
  readonly shown: readonly string[];
}

const width = 1000;
/** So large may a picture be [bytes]. */
const mostBytes = 200_000;
/** What is on top of a list, without every second of its paragraphs: details that would make the picture large. */
const firstOfList = 'li:first-child :is(.tag, h3, p:nth-of-type(odd))';
const root = fileURLToPath(new URL('../../', import.meta.url));
const pictures = join(root, 'docs', 'pictures');
const { values } = parseArgs({ options: { report: { type: 'string' } } });
const folder = mkdtempSync(join(tmpdir(), 'dryhold-pictures-'));

try {
  const report = values.report ?? makeDemo();
  const browser = await startChromium();
  mkdirSync(pictures, { recursive: true });
  try {
    for (const picture of picturesOf(report)) await take(browser, report, picture);
  } finally {
    await browser.close();
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}

/** Makes the invented shop's pages, and returns their folder. */
function makeDemo(): string {
  console.log('making the demo, which takes half a minute');
  const demo = join(folder, 'demo');
  const { status } = spawnSync(process.execPath, [join(root, 'bin', 'dryhold.js'), 'demo', '--out', demo], {
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  if (status !== 0) throw new Error(`the demo ended with ${status}`);
  return join(demo, 'report');
}

function picturesOf(report: string): Picture[] {
  return [
    { name: 'start', page: 'index.html', shown: ['#call', '.call', '.doors'] },
    {
      name: 'service-manager',
      page: 'service-manager.html',
      shown: ['#callbacks', '#callbacks ~ figure', '#months', '#months ~ .multiples > :nth-child(-n+4)'],
    },
    {
      name: 'trainer',
      page: 'trainer.html',
      shown: ['#first', `#first ~ ol > ${firstOfList}`, '#skills', '#skills ~ .pair'],
    },
    {
      name: 'owner',
      page: 'owner.html',
      shown: ['#first', '#first ~ ol > li:first-child', '#balances', '#balances ~ .multiples'],
    },
    {
      name: 'job',
      page: firstJob(report),
      shown: ['#findings', `#findings ~ ul > ${firstOfList}`, '#recordings', '#recordings ~ .pair:nth-of-type(1)'],
    },
  ];
}

/** The page of the job that the start page says to call about first. */
function firstJob(report: string): string {
  const [, page] = /class="call".*?href="(jobs\/[^"]+)"/s.exec(readFileSync(join(report, 'index.html'), 'utf8')) ?? [];
  if (page === undefined) throw new Error('the start page says to call about no job that has a page');
  return page;
}

async function take(browser: Browser, report: string, { name, page: file, shown }: Picture): Promise<void> {
  const { page, complaints } = await watchedPage(browser, {
    viewport: { width, height: 1400 },
    colorScheme: 'light',
  });
  await page.goto(pathToFileURL(join(report, file)).href);
  await page.waitForSelector('html[data-charts=drawn]', { state: 'attached' });
  const height = await page.evaluate<number>(leaveStanding(shown));
  const png = await page.screenshot({ clip: { x: 0, y: 0, width, height }, fullPage: true });
  await page.context().close();
  if (complaints.length > 0) throw new Error(`${name}: ${complaints.join('; ')}`);
  if (png.length > mostBytes) throw new Error(`${name}.png would have ${png.length} bytes, more than ${mostBytes}`);
  const target = join(pictures, `${name}.png`);
  writeFileSync(target, png);
  console.log(`docs/pictures/${name}.png: ${width} by ${height}, ${Math.round(statSync(target).size / 1000)} kB`);
}

/** An expression that hides all of the main part that neither holds nor is within what is shown, and gives the height of the rest. */
function leaveStanding(shown: readonly string[]): string {
  return `(() => {
    const kept = ${JSON.stringify(shown)}.flatMap((selector) => {
      const found = [...document.querySelectorAll(selector)];
      if (found.length === 0) throw new Error('nothing on the page is ' + selector);
      return found;
    });
    for (const element of document.querySelectorAll('main *'))
      if (!kept.some((one) => one.contains(element) || element.contains(one))) element.style.display = 'none';
    return Math.ceil(document.querySelector('main').getBoundingClientRect().bottom + scrollY) + 8;
  })()`;
}
