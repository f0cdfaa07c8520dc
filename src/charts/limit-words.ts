import type { ChartColours } from './chart-colours.ts';

/**
 * The words on limit lines as two layers of a chart: a halo that goes beneath the curves and the words that go above them.
 * Their data are the rows of the data set `limits`, each with `p` on the axis, `text`, `side` and `offsetPx`.
 */
export function limitWords(colours: ChartColours) {
  const data = { name: 'limits' } as const;
  const words = {
    type: 'text',
    align: { expr: 'datum.side' },
    dx: { expr: "datum.side === 'left' ? 4 : -4" },
    dy: { expr: 'datum.offsetPx' },
    fontSize: 11,
  } as const;
  const halo = { stroke: colours.paper, strokeWidth: 3, strokeJoin: 'round', color: colours.paper } as const;
  const encoding = {
    x: { value: { expr: "datum.side === 'left' ? 0 : width" } },
    y: { field: 'p', type: 'quantitative' },
    text: { field: 'text', type: 'nominal' },
  } as const;
  return {
    halo: { data, mark: { ...words, ...halo }, encoding },
    words: { data, mark: { ...words, color: colours.fail }, encoding },
  };
}
