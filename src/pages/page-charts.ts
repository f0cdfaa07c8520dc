import type { Spec } from 'vega';
import type { TopLevelSpec } from 'vega-lite';
import { compileChart } from '../charts/compile-chart.ts';
import { chartKey } from './chart-key.ts';
import type { Figure } from './figure.ts';
import { type Html, html, shownText } from './html.ts';
import { type PageCell, type PageTable, pageTable } from './page-table.ts';

/** A row that charts read: texts, numbers and nulls. */
export type ChartRow = Readonly<Record<string, PageCell>>;

/** A figure of a page, its chart as it can be drawn. */
export interface DrawableFigure extends Figure {
  /** Compiled. */
  readonly spec: Spec;
}

/** The charts of one page: compiled as they are added, drawn by the page's own script from the list kept here. */
export class PageCharts {
  readonly specs: Spec[] = [];
  /** All figures, in the order of the page. */
  readonly figures: DrawableFigure[] = [];
  /** Rows that charts read by name, and that the page's filters act on. */
  readonly rows = new Map<string, readonly ChartRow[]>();
  /** Heights to reserve, so that nothing moves while charts are drawn [px]. */
  readonly #heightsPx = new Set<number>();
  /** Places of the charts by what they were compiled from: one that reads the same in all units is there once. */
  readonly #places = new Map<string, number>();

  /** Adds a figure: its title, the place where its chart will be drawn, and what belongs below. */
  async figure(figure: Figure): Promise<Html> {
    const {
      title,
      note,
      noteOnPage,
      description,
      figuresAt,
      heightPx,
      key = [],
      legend,
      below = false,
      isNarrow = false,
    } = figure;
    const notes = [note, noteOnPage].filter((text) => text !== undefined).join(' ');
    const label = [description, figuresAt].filter((text) => text !== undefined).join(' ');
    const source = JSON.stringify(figure.chart);
    const chart = shown(source);
    const place = this.#places.get(source) ?? this.specs.push((await compileChart(chart)).spec) - 1;
    this.#places.set(source, place);
    this.figures.push({ ...figure, chart, spec: this.specs[place] });
    const reservedPx = Math.ceil(heightPx / 10) * 10;
    this.#heightsPx.add(reservedPx);
    return html`<figure${isNarrow && html` class="narrow"`}><figcaption>${title}${notes !== '' && html` <span class="quiet">${notes}</span>`}</figcaption><div class="chart high-${reservedPx}" data-chart="${place}" role="img" aria-label="${label}"></div>${key.length > 0 && chartKey(key)}${legend !== undefined && html`<p class="quiet">${legend}</p>`}${below}</figure>`;
  }

  /** Adds a table that charts of the page read by its name. */
  addTable(name: string, rows: readonly object[]): void {
    if (!this.rows.has(name)) this.rows.set(name, rows as readonly ChartRow[]);
  }

  /** The tables as the page carries them. */
  get tables(): Record<string, PageTable> {
    return Object.fromEntries([...this.rows].map(([name, rows]) => [name, pageTable(rows)]));
  }

  /** The style rules that reserve the heights. */
  get styles(): string {
    return [...this.#heightsPx]
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
