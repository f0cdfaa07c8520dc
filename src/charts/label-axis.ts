import type { PositionFieldDef } from 'vega-lite/types_unstable/channeldef.js';
import type { ChartColours } from './chart-colours.ts';

export interface LabelAxisOptions {
  readonly field: string;
  readonly colours: ChartColours;
}

/**
 * An axis of rows, each with its label at the left; a long one is cut where it would leave no room for the chart.
 *
 * @param labels in the order of the rows, each once
 */
export function labelAxis(labels: readonly string[], { field, colours }: LabelAxisOptions): PositionFieldDef<string> {
  return {
    field,
    type: 'nominal',
    sort: null,
    scale: { domain: [...labels] },
    title: null,
    axis: {
      labelColor: colours.ink,
      labelFontSize: 12,
      labelLimit: { expr: 'max(116, 0.32 * containerSize()[0])' },
    },
  };
}
