import type { Spec } from 'vega';
import type { TopLevelSpec } from 'vega-lite';
import { compileChart } from '../charts/compile-chart.ts';
import { type Html, html, shownText } from './html.ts';
import { type PageCell, type PageTable, pageTable } from './page-table.ts';

/** The charts of one page: compiled as they are added, drawn by the page's own script from the list kept here. */
export class PageCharts {
  readonly specs: Spec[] = [];
  /** Rows that charts read by name, and that the page's filters act on. */
  readonly tables: Record<string, PageTable> = {};
  /** Heights to reserve, so that nothing moves while charts are drawn [px]. */
  readonly heightsPx = new Set<number>();
  /** Places of the charts by what they were compiled from: one that reads the same in all units is there once. */
  readonly #places = new Map<string, number>();

  /**
   * Adds a chart and gives the place where it will be drawn.
   *
   * @param description what the chart shows, for people who do not see it; the figures themselves belong in a table
   * @param heightPx about how high it will be, axes included [px]
   */
  async add(chart: TopLevelSpec, description: string, heightPx: number): Promise<Html> {
    const source = JSON.stringify(chart);
    const place = this.#places.get(source) ?? this.specs.push((await compileChart(shown(source))).spec) - 1;
    this.#places.set(source, place);
    const reservedPx = Math.ceil(heightPx / 10) * 10;
    this.heightsPx.add(reservedPx);
    return html`<div class="chart high-${reservedPx}" data-chart="${place}" role="img" aria-label="${description}"></div>`;
  }

  /**
   * Adds a table that charts of the page read by its name.
   *
   * @param rows of texts, numbers and nulls, as `pageTable` takes them
   */
  addTable(name: string, rows: readonly object[]): void {
    this.tables[name] ??= pageTable(rows as readonly Readonly<Record<string, PageCell>>[]);
  }

  /** The style rules that reserve the heights. */
  get styles(): string {
    return [...this.heightsPx]
      .toSorted((a, b) => a - b)
      .map((heightPx) => `.high-${heightPx}{min-height:${heightPx}px}`)
      .join('\n');
  }
}

/** A chart whose texts are as a page shows them: labels may hold anything. */
function shown(source: string): TopLevelSpec {
  return JSON.parse(source, (_, value: unknown) =>
    typeof value === 'string' ? shownText(value) : value,
  ) as TopLevelSpec;
}
