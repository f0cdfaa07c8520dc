import type { TopLevelSpec } from 'vega-lite';
import { inLightColours, lightColours } from '../charts/chart-colours.ts';
import { type DateStyle, inDateStyle } from './date-style.ts';
import { figureHeading, figureNote } from './figure-picture.ts';
import type { ChartRow, DrawableFigure } from './page-charts.ts';

/** As wide as the chart of a picture, axes and all [px]. */
const widthPx = 720;

/**
 * A chart as a Vega-Lite specification that needs nothing else: its title, and all rows that it reads. Any program that knows Vega-Lite draws it.
 *
 * @param tables rows that charts of its page read by name
 * @returns JSON
 */
export function chartSpecification(
  figure: DrawableFigure,
  tables: ReadonlyMap<string, readonly ChartRow[]>,
  dates: DateStyle,
): string {
  const dated = (text: string): string => inDateStyle(text, dates);
  const { chart, description, legend } = figure;
  const read = namesRead(chart);
  const datasets = Object.fromEntries([...tables].filter(([name]) => read.has(name)));
  const subtitle = [figureNote(figure), legend].filter((text) => text !== undefined).map(dated);
  const whole = {
    ...chart,
    title: {
      text: dated(figureHeading(figure)),
      ...(subtitle.length === 0 ? {} : { subtitle }),
      anchor: 'start',
      offset: 12,
    },
    description: dated(description),
    width: widthPx,
    // As a page sizes it: axes and all.
    autosize: { type: 'fit-x', contains: 'padding' },
    background: lightColours.paper,
    ...(Object.keys(datasets).length === 0 ? {} : { datasets }),
  };
  return `${inLightColours(JSON.stringify(whole, null, 1))}\n`;
}

/** Names of tables that a chart reads, anywhere in it. */
function namesRead(chart: TopLevelSpec): ReadonlySet<string> {
  const names = new Set<string>();
  JSON.stringify(chart, (key, value: unknown) => {
    if (key === 'data' && typeof value === 'object' && value !== null && 'name' in value) names.add(String(value.name));
    return value;
  });
  return names;
}
