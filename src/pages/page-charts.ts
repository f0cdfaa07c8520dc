import type { Spec } from 'vega';
import type { TopLevelSpec } from 'vega-lite';
import { compileChart } from '../charts/compile-chart.ts';
import { type Html, html } from './html.ts';

/** The charts of one page: compiled as they are added, drawn by the page's own script from the list kept here. */
export class PageCharts {
  readonly specs: Spec[] = [];
  /** Heights to reserve, so that nothing moves while charts are drawn [px]. */
  readonly heightsPx = new Set<number>();

  /**
   * Adds a chart and gives the place where it will be drawn.
   *
   * @param description what the chart shows, for people who do not see it; the figures themselves belong in a table
   * @param heightPx about how high it will be, axes included [px]
   */
  async add(chart: TopLevelSpec, description: string, heightPx: number): Promise<Html> {
    const { spec } = await compileChart(chart);
    const index = this.specs.push(spec) - 1;
    const reservedPx = Math.ceil(heightPx / 10) * 10;
    this.heightsPx.add(reservedPx);
    return html`<div class="chart high-${reservedPx}" data-chart="${index}" role="img" aria-label="${description}"></div>`;
  }

  /** The style rules that reserve the heights. */
  get styles(): string {
    return [...this.heightsPx]
      .toSorted((a, b) => a - b)
      .map((heightPx) => `.high-${heightPx}{min-height:${heightPx}px}`)
      .join('\n');
  }
}
