import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { type OpenedReport, drawn, settled } from './opened-report.ts';

/** Every text that is seen or read out, with what can be unfolded; the choice of the units itself aside. */
const textsRead = `(() => {
  for (const details of document.querySelectorAll('details')) details.open = true;
  const shown = (element) => element.closest('.units, script, style, noscript') === null && element.checkVisibility();
  const texts = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_ELEMENT | NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
    if (node.nodeType === Node.ELEMENT_NODE) {
      if (node.hasAttribute('aria-label') && shown(node)) texts.push(node.getAttribute('aria-label'));
    } else if (node.data.trim() !== '' && shown(node.parentElement)) texts.push(node.data.trim());
  }
  return texts;
})()`;

const read = (page: Page) => page.evaluate<string[]>(textsRead);

/** Units that a reader of the other system should not meet, after a figure or in an axis. */
const foreign = {
  ip: /\bPa\b|\bkPa\b|\bMPa\b|°C\b|\d\s?K\b|\bkg\b(?! CO)|\d\s?g\b/,
  si: /µm|\bmicrons?\b(?! gauge)|\bpsi[ag]?\b|°F\b|\boz\b|\blbs?\b/,
} as const;

/** Figures of sentences that are the same for all readers stand in both: 70 °F (21 °C). */
const inBoth = /\d[\d .,]* (?:°F|psig?|lb|in|microns|µm)(?: absolute)? \([^)]*\)/g;

/** What a log says by another unit than its map has is told by the names of both. */
const aboutUnits = 'mend the source map';

/** Texts with a unit of the other system. */
const foreignIn = (texts: readonly string[], units: 'ip' | 'si') =>
  texts.filter((text) => !text.includes(aboutUnits) && foreign[units].test(text.replaceAll(inBoth, '')));

/** Both systems of units, each alone. */
export function unitsShown(report: () => OpenedReport): void {
  test('nothing of the other system is seen, read out or printed, and switching back gives all back', async () => {
    const [, manager, , owner, sheet, , job] = report().kinds();
    for (const file of [manager, owner, sheet, job]) {
      const { page, complaints } = await report().open(file);
      const inIp = await read(page);
      expect([file, foreignIn(inIp, 'ip')]).toEqual([file, []]);
      await page.check('input[name=units][value=si]');
      await drawn(page);
      await settled(page);
      const inSi = await read(page);
      expect([file, foreignIn(inSi, 'si')]).toEqual([file, []]);
      await page.emulateMedia({ media: 'print' });
      expect([file, foreignIn(await read(page), 'si')]).toEqual([file, []]);
      await page.emulateMedia({ media: 'screen' });
      await page.check('input[name=units][value=ip]');
      await drawn(page);
      await settled(page);
      expect([file, await read(page)]).toEqual([file, inIp]);
      // A page by an address with its units reads as one that was switched.
      if (file.startsWith('jobs/')) {
        expect(inSi).not.toEqual(inIp);
        const asked = await report().open(file, { query: 'units=si' });
        expect(await read(asked.page)).toEqual(inSi);
        await asked.page.context().close();
      }
      expect([file, complaints]).toEqual([file, []]);
      await page.context().close();
    }
  });

  test('charts that differ are drawn again, with the same readings on another axis; the others stay as they are', async () => {
    const file =
      report()
        .kinds()
        .find((one) => one.startsWith('jobs/')) ?? '';
    const { page } = await report().open(file);
    const charts = () =>
      page.evaluate<{ other: boolean; axis: string; svg: string; marks: number }[]>(
        `[...document.querySelectorAll('[data-chart]')].filter((chart) => chart.checkVisibility()).map((chart) => ({
          other: chart.hasAttribute('data-other-data-chart'),
          axis: [...chart.querySelectorAll('.role-axis-title text')].map(({ textContent }) => textContent).join(' | '),
          svg: chart.innerHTML,
          marks: chart.querySelectorAll('.role-mark path').length,
        }))`,
      );
    const before = await charts();
    await page.check('input[name=units][value=si]');
    await drawn(page);
    const after = await charts();
    expect(after).toHaveLength(before.length);
    expect(before.some(({ other }) => other)).toBe(true);
    for (const [at, { other, svg, marks }] of before.entries()) {
      if (other) expect(after[at]?.svg).not.toBe(svg);
      else expect(after[at]?.svg).toBe(svg);
      expect(after[at]?.marks).toBe(marks);
    }
    await page.context().close();
  });
}
