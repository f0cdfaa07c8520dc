import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { PagePrinter, type Paper } from '../../../src/steps/paper/page-printer.ts';
import { hasPdfReader, type PrintedPage, printedPages } from '../printed-pages.ts';
import type { OpenedReport } from './opened-report.ts';

/** A chart of a page and the texts that can be seen in it. */
interface LabelledChart {
  readonly title: string;
  readonly labels: readonly string[];
}

/** Labels that a chart hides, since there is no room for them, are see-through; what has a halo is drawn twice in one place. */
const labelledCharts = `[...document.querySelectorAll('figure')]
  .filter((figure) => figure.checkVisibility() && figure.querySelector('[data-chart]') !== null)
  .map((figure) => ({
    title: figure.querySelector('figcaption').textContent,
    labels: [...new Map([...figure.querySelectorAll('[data-chart] svg text')]
      .filter((text) => text.getAttribute('opacity') !== '0')
      .flatMap((text) => (text.children.length === 0 ? [text] : [...text.children]))
      .map((line) => [line.textContent + ' ' + Math.round(line.getBoundingClientRect().left) + ' ' + Math.round(line.getBoundingClientRect().top), line.textContent]),
    ).values()],
  }))`;

/** What a reader would read on paper: no table that is folded away, no units of the other system. */
const readText = `(() => {
  const words = [];
  const walk = (node) => {
    if (node.nodeType === 3) words.push(...node.textContent.split(/\\s+/));
    else if (node.nodeType === 1 && node.tagName !== 'SCRIPT' && node.tagName.toLowerCase() !== 'svg' && node.checkVisibility())
      for (const child of node.childNodes) walk(child);
  };
  walk(document.body);
  return words.filter((word) => word !== '');
})()`;

const wordsOf = ({ labels }: LabelledChart): string[] =>
  labels.flatMap((label) => label.split(/\s+/)).filter((word) => word !== '');

/** Words that a sheet lacks of those that it should have, each as often as it should have it. */
function missingOn({ words }: PrintedPage, wanted: readonly string[]): string[] {
  const once = words.filter(
    (word, at) =>
      !words
        .slice(Math.max(0, at - 12), at)
        .some(
          ({ text, left: x, top }) =>
            text === word.text && Math.abs(x - word.left) < 0.1 && Math.abs(top - word.top) < 3,
        ),
  );
  const left = Map.groupBy(once, ({ text }) => text);
  return wanted.filter((word) => left.get(word)?.pop() === undefined);
}

/** Charts of which no sheet has all labels, and sheets that have fewer labels than the charts on them. */
function cutCharts(pages: readonly PrintedPage[], charts: readonly LabelledChart[]): string[] {
  const placed = charts.map((chart) => {
    const missing = pages.map((page) => missingOn(page, wordsOf(chart)).length);
    return { chart, place: missing.indexOf(Math.min(...missing)) };
  });
  return [...Map.groupBy(placed, ({ place }) => place)].flatMap(([place, on]) => {
    const missing = missingOn(
      pages[place],
      on.flatMap(({ chart }) => wordsOf(chart)),
    );
    return missing.length === 0 ? [] : [`${on.map(({ chart }) => chart.title).join(' / ')}: ${missing.join(' ')}`];
  });
}

const pageMarginPt = 0.5 * 72;

/** Words that lie beyond the room between the margins, as far as printers go. */
function beyondMargins(pages: readonly PrintedPage[]): string[] {
  return pages.flatMap(({ widthPt, heightPt, words }) =>
    words
      .filter(
        ({ left, right, top, bottom }) =>
          left < pageMarginPt || right > widthPt - pageMarginPt || top < pageMarginPt || bottom > heightPt - 0.2 * 72,
      )
      .map(({ text }) => text),
  );
}

/** What is printed on paper, as another program reads it. */
export function paper(report: () => OpenedReport): void {
  const printers = new Map<Paper, PagePrinter>();
  beforeAll(async () => {
    for (const each of ['letter', 'a4'] as const) printers.set(each, await PagePrinter.open(each));
  });
  afterAll(async () => {
    for (const printer of printers.values()) await printer.close();
  });
  const print = async (html: string, on: Paper): Promise<PrintedPage[]> => {
    const printer = printers.get(on);
    return printer === undefined ? [] : printedPages(await printer.print(html));
  };
  /** The page as it stands before it is printed, between margins of 14 mm. */
  const laidOut = async (file: string, on: Paper): Promise<Page> => {
    const { page } = await report().open(file, { width: { letter: 710, a4: 687 }[on], media: 'print' });
    return page;
  };

  if (!hasPdfReader) console.warn('no pdftotext: what a PDF holds is not read');

  test.skipIf(!hasPdfReader)(
    'a PDF of each kind of page has every chart whole, nothing beyond its margins, and all of its text to select',
    async () => {
      for (const [at, file] of report().kinds().entries()) {
        const on = at % 2 === 0 ? 'letter' : 'a4';
        const page = await laidOut(file, on);
        const charts = await page.evaluate<LabelledChart[]>(labelledCharts);
        const words = await page.evaluate<string[]>(readText);
        await page.context().close();
        const pages = await print(report().text(file), on);
        const widthPt = { letter: 612, a4: 595.3 }[on];
        for (const sheet of pages) expect(Math.abs(sheet.widthPt - widthPt)).toBeLessThan(1);
        expect([file, cutCharts(pages, charts)]).toEqual([file, []]);
        expect([file, beyondMargins(pages)]).toEqual([file, []]);
        // Some words stand against each other without a space on paper, and one may be broken at a hyphen.
        const text = pages.flatMap((sheet) => sheet.words.map((word) => word.text)).join('');
        const lost = words.filter((word) => !word.split(/(?<=-)/).every((part) => text.includes(part)));
        expect([file, words.length > 40, lost]).toEqual([file, true, []]);
      }
    },
  );

  test.skipIf(!hasPdfReader)('a chart that is cut, at the foot or at the side, would be seen', async () => {
    const page = await laidOut('service-manager.html', 'letter');
    const charts = await page.evaluate<LabelledChart[]>(labelledCharts);
    await page.context().close();
    const spoilt = (style: string): string =>
      report()
        .text('service-manager.html')
        .replace(/<meta http-equiv="Content-Security-Policy"[^>]*>/, '')
        .replace('</style>', `${style}</style>`);
    const tall = await print(spoilt('@media print{.chart svg{height:1890px!important}}'), 'letter');
    expect(cutCharts(tall, charts)).not.toEqual([]);
    const wide = await print(
      spoilt(
        '@media print{.chart,.chart svg{overflow:visible!important;max-width:none!important;width:1100px!important}}',
      ),
      'letter',
    );
    expect(cutCharts(wide, charts)).not.toEqual([]);
  });
}
