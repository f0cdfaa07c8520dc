import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { TopLevelSpec } from 'vega-lite';
import { beforeAll, expect, test } from 'vitest';
import { compileChart } from '../../../src/charts/compile-chart.ts';
import { drawnChart } from '../../../src/charts/drawn-chart.ts';
import { report as writeReport, type ReportResult } from '../../../src/steps/report.ts';
import { schemaErrors } from '../../charts/schema-errors.ts';
import type { OpenedReport } from './opened-report.ts';

const filesIn = (folder: string, ending: string): string[] =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith(ending))
    .sort();

/** How many marks a picture has that stand for something. */
const marksIn = (svg: string): number => svg.match(/<(?:path|rect|line|text)\b/g)?.length ?? 0;

/** A report as pictures of its charts, with what they were drawn from. */
export function pictures(report: () => OpenedReport): void {
  let folder: string;
  let written: ReportResult;
  const read = (name: string): string => readFileSync(join(folder, name), 'utf8');
  beforeAll(async () => {
    folder = join(report().folder, '..', 'pictures');
    const reader = { units: 'si', dates: 'iso' } as const;
    written = await writeReport(report().store, folder, { reader, codes: false, form: { format: 'svg', specs: true } });
  });

  test('there is a picture and a specification of every chart of every page, and nothing else', () => {
    const shown = /<div class="chart[^"]*" data-chart="\d+"(?![^>]* data-u="ip")/g;
    const all = filesIn(report().folder, '.html').flatMap((page) => report().text(page).match(shown) ?? []).length;
    expect(all).toBeGreaterThan(100);
    expect([written.pictures, written.specs]).toEqual([all, all]);
    expect(filesIn(join(folder, 'charts'), '.svg')).toHaveLength(all);
    expect(filesIn(join(folder, 'specs'), '.vl.json').map((name) => name.replace('.vl.json', '.svg'))).toEqual(
      filesIn(join(folder, 'charts'), '.svg'),
    );
    expect(filesIn(folder, '.html')).toEqual([]);
    expect([written.page, written.pages]).toEqual([join(folder, 'charts'), null]);
  });

  test('each picture says all by itself, in fixed colours, and opens in a browser', async () => {
    const names = filesIn(join(folder, 'charts'), '.svg');
    for (const name of names) {
      const svg = read(join('charts', name));
      const [, title = ''] = /<title>([^<]*)<\/title>/.exec(svg) ?? [];
      const drawn = [...svg.matchAll(/font-weight="600"[^>]*>([^<]*)<\/text>/g)].map(([, line]) => line).join(' ');
      expect([name, drawn.startsWith(title) && title !== '']).toEqual([name, true]);
      expect([name, /var\(--|NaN|undefined|Infinity| below has| chosen above/.exec(svg)?.[0]]).toEqual([
        name,
        undefined,
      ]);
    }
    const kinds = [
      ...new Map(names.map((name) => [name.replace(/.*\//, '').replace(/(-\d+)?\.svg$/, ''), name])).values(),
    ];
    expect(kinds.length).toBeGreaterThan(14);
    for (const name of kinds) {
      const { page, complaints } = await report().openFile(join(folder, 'charts', name));
      expect([name, await page.evaluate('document.documentElement.tagName'), complaints]).toEqual([name, 'svg', []]);
      // Nothing stands beyond the edge.
      const over = await page.evaluate<string[]>(`[...document.querySelectorAll('text')].filter((text) => {
        const { left, right, width } = text.getBoundingClientRect();
        return width > 0 && text.getAttribute('opacity') !== '0' && (left < 0 || right > document.documentElement.width.baseVal.value);
      }).map((text) => text.textContent)`);
      expect([name, over]).toEqual([name, []]);
      await page.context().close();
    }
  });

  test('each specification is valid, needs nothing else, and draws the chart of its picture', async () => {
    for (const name of filesIn(join(folder, 'specs'), '.vl.json')) {
      const chart = JSON.parse(read(join('specs', name))) as TopLevelSpec & { title: { text: string } };
      expect([name, schemaErrors(chart)]).toEqual([name, []]);
      // What stands around it, a picture draws itself.
      const { title, background: _, ...bare } = chart;
      const picture = read(join('charts', name.replace('.vl.json', '.svg')));
      expect(picture.replaceAll('&#39;', "'").replaceAll('&amp;', '&')).toContain(`<title>${title.text}</title>`);
      const { spec, warnings } = await compileChart(bare);
      expect([name, warnings]).toEqual([name, []]);
      const { svg } = await drawnChart(spec, { widthPx: 720, tables: new Map() });
      const [, inner = ''] = /<g transform="translate\(20 [\d.]+\)">(<svg.*?<\/svg>)<\/g>\n/s.exec(picture) ?? [];
      expect([name, marksIn(svg)]).toEqual([name, marksIn(inner)]);
    }
  });
}
