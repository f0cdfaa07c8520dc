import { expect, test } from 'vitest';
import type { OpenedReport } from './opened-report.ts';

interface ChartSeen {
  readonly label: string;
  readonly role: string;
  readonly drawn: string;
  readonly isShown: boolean;
  readonly marks: number;
  readonly overPx: number;
}

const chartsSeen = `[...document.querySelectorAll('[data-chart]')].map((chart) => ({
  label: chart.getAttribute('aria-label'),
  role: chart.getAttribute('role'),
  drawn: chart.dataset.drawn ?? '',
  isShown: chart.closest('[data-u]:not([data-u=' + document.documentElement.dataset.units + '])') === null,
  marks: chart.querySelectorAll('svg .role-mark :is(path, line, text)').length,
  overPx: (chart.querySelector('svg')?.getBoundingClientRect().width ?? 9999) - chart.getBoundingClientRect().width,
}))`;

/** Every page opens without complaint, at once and offline, with all of its charts in their places. */
export function opening(report: () => OpenedReport): void {
  test('opens without complaint, asks for nothing, and draws all of its charts', async () => {
    const kinds = report().kinds();
    expect(kinds).toHaveLength(9);
    let charts = 0;
    for (const file of kinds) {
      const { page, complaints } = await report().open(file);
      const seen = await page.evaluate<ChartSeen[]>(chartsSeen);
      const faults = seen.filter(
        ({ isShown, drawn, marks, overPx, label, role }) =>
          // Vega would name every chart alike.
          role !== 'img' ||
          /^$|vega/i.test(label) ||
          (isShown ? drawn !== 'yes' || marks === 0 || overPx > 1 : marks > 0),
      );
      expect([file, faults, complaints]).toEqual([file, [], []]);
      charts += seen.length;
      await page.context().close();
    }
    expect(charts).toBeGreaterThan(20);
  });

  test('every link leads to a page and a place that is there', async () => {
    const { page } = await report().open('index.html');
    for (const file of report().kinds()) {
      const text = report().text(file);
      const links = [...text.matchAll(/ href="([^"]+)"/g)].map(([, link]) => link).filter((link) => link !== 'data:,');
      expect(links.length).toBeGreaterThan(3);
      for (const link of new Set(links)) {
        const { pathname, hash } = new URL(link, `file:///${file}`);
        const target = report().text(pathname.slice(1));
        if (hash !== '') expect([file, link, target.includes(`id="${hash.slice(1)}"`)]).toEqual([file, link, true]);
      }
    }
    await page.click('.places >> text=Trainer');
    expect(new URL(page.url()).pathname).toMatch(/\/trainer\.html$/);
    await page.context().close();
  });
}
