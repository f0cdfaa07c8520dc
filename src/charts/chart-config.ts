import type { Config } from 'vega-lite';
import type { ChartColours } from './chart-colours.ts';

/** Type that every machine has; nothing is fetched. */
export const CHART_FONT = 'system-ui, "Segoe UI", Roboto, "Helvetica Neue", "DejaVu Sans", sans-serif';

/**
 * The quiet look that all charts share.
 *
 * @param colours what to draw with
 * @returns Vega-Lite configuration; marks carry no texts of their own for screen readers, the chart's description and
 *   the table beside it do
 */
export function chartConfig(colours: ChartColours): Config {
  return {
    background: 'transparent',
    font: CHART_FONT,
    aria: false,
    padding: { left: 2, top: 4, right: 6, bottom: 2 },
    view: { stroke: null },
    mark: { invalid: 'break-paths-show-path-domains', tooltip: null },
    text: { font: CHART_FONT, fontSize: 11.5, color: colours.ink },
    axis: {
      labelColor: colours.muted,
      labelFontSize: 11.5,
      titleColor: colours.muted,
      titleFontSize: 11.5,
      titleFontWeight: 'normal',
      domainColor: colours.muted,
      gridColor: colours.rule,
      tickColor: colours.muted,
      ticks: false,
      labelPadding: 5,
      titlePadding: 8,
    },
    axisY: { domain: false },
  };
}
