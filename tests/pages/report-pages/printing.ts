import { expect, test } from 'vitest';
import { type OpenedReport, settled } from './opened-report.ts';

const mmPerInch = 25.4;
const pxPerMm = 96 / mmPerInch;
/** The room that the margins of the style sheet leave on a sheet, 14 mm at the sides, 16 mm above and below. */
const papers = {
  Letter: { widthPx: (8.5 * mmPerInch - 28) * pxPerMm, heightPx: (11 * mmPerInch - 32) * pxPerMm },
  A4: { widthPx: (210 - 28) * pxPerMm, heightPx: (297 - 32) * pxPerMm },
} as const;

interface Printed {
  readonly what: string;
  readonly left: number;
  readonly right: number;
  readonly heightPx: number;
  readonly isKeptWhole: boolean;
}

/** All that is printed and could be cut: charts and tables by their edges, figures by their height. */
const printed = `[...document.querySelectorAll('[data-chart] svg, table, figure, .todo > li, .findings > li, .caution')]
  .filter((element) => element.checkVisibility())
  .map((element) => {
    const { left, right, height } = element.getBoundingClientRect();
    return {
      what: element.tagName + ' ' + (element.closest('figure, section')?.textContent ?? '').trim().slice(0, 40),
      left, right, heightPx: height,
      isKeptWhole: element.closest('figure, table, li, .caution') !== null &&
        (element.tagName === 'TABLE' || getComputedStyle(element.closest('figure, li, .caution')).breakInside === 'avoid'),
    };
  })`;

/** What comes out of the printer. */
export function printing(report: () => OpenedReport): void {
  test('nothing is cut at the side of Letter or A4, and every figure fits on one sheet and is kept there', async () => {
    const [, manager, trainer, owner, sheet, , job] = report().kinds();
    for (const file of [manager, trainer, owner, sheet, job]) {
      const { page } = await report().open(file, { scheme: 'dark' });
      // Printing lays out anew for the paper, but tells charts of no new size: they are scaled.
      await page.evaluate("addEventListener('resize', (event) => event.stopImmediatePropagation(), true)");
      await page.emulateMedia({ media: 'print' });
      for (const [paper, { widthPx, heightPx }] of Object.entries(papers)) {
        await page.setViewportSize({ width: Math.floor(widthPx), height: Math.floor(heightPx) });
        await settled(page);
        const faults = (await page.evaluate<Printed[]>(printed)).filter(
          ({ what, left, right, heightPx: ownPx, isKeptWhole }) =>
            left < -0.5 || right > widthPx + 0.5 || !isKeptWhole || (!what.startsWith('TABLE') && ownPx > heightPx),
        );
        expect([file, paper, faults]).toEqual([file, paper, []]);
        expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(Math.ceil(widthPx));
      }
      // Paper is light whatever the screen is, and what only works on a screen is not on it.
      expect(await page.evaluate('getComputedStyle(document.body).color')).toBe('rgb(27, 32, 38)');
      expect(await page.isVisible('.top, .filters, summary')).toBe(false);
      await page.context().close();
    }
  });

  test('charts that are not drawn yet are drawn before a page is printed', async () => {
    const file =
      report()
        .kinds()
        .find((one) => one.startsWith('jobs/')) ?? '';
    const { page, complaints } = await report().open(file);
    const drawnAtOnce = await page.evaluate<string[]>(
      `(() => {
        for (const chart of document.querySelectorAll('[data-other-data-chart]')) chart.replaceChildren();
        document.querySelector('input[name=units][value=si]').click();
        dispatchEvent(new Event('beforeprint'));
        const shown = [...document.querySelectorAll('[data-chart]')].filter((chart) => chart.checkVisibility());
        return shown.map((chart) => chart.querySelector('svg')?.textContent ?? 'not drawn');
      })()`,
    );
    expect(drawnAtOnce.length).toBeGreaterThan(2);
    expect(drawnAtOnce.filter((text) => text === 'not drawn' || text.includes('µm'))).toEqual([]);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  test('a page can be printed on either paper, with a sheet for each part of it', async () => {
    const { page } = await report().open('service-manager.html');
    await page.evaluate("addEventListener('beforeprint', () => { document.body.dataset.printed = 'yes'; })");
    for (const [format, box] of [
      ['Letter', /\/MediaBox \[0 0 612 792\]/g],
      ['A4', /\/MediaBox \[0 0 59[45](?:\.\d+)? 84[12](?:\.\d+)?\]/g],
    ] as const) {
      const pdf = (await page.pdf({ format, preferCSSPageSize: false })).toString('latin1');
      expect(pdf.match(box)?.length).toBeGreaterThan(3);
    }
    expect(await page.evaluate('document.body.dataset.printed')).toBe('yes');
    await page.context().close();
  });
}
