import type { Config, TopLevelSpec } from 'vega-lite';

/** What a cell of a table may hold; what is not known is shown as nothing. */
export type ShownValue = string | number | boolean | null | undefined;

/** A row that a notebook shows: its columns by their heads. */
export type ShownRow = Readonly<Record<string, ShownValue>>;

/** A chart that a notebook shows: Vega-Lite with its rows in it; schema, width, fonts and quiet colours are added. */
export type ShownChart = Readonly<Record<string, unknown>>;

export interface ShownSentence {
  readonly kind: 'sentence';
  readonly text: string;
}

export interface ShownTable {
  readonly kind: 'table';
  readonly title: string;
  readonly rows: readonly ShownRow[];
}

export interface ShownFigure {
  readonly kind: 'chart';
  /** The question that it answers. */
  readonly title: string;
  /** What it shows, for people who do not see it. */
  readonly description: string;
  /** About how high it is, axes included [px]. */
  readonly heightPx: number;
  readonly chart: ShownChart;
}

/** Something that a notebook showed. */
export type NotebookOutput = ShownSentence | ShownTable | ShownFigure;

/** A cell that was run. */
export interface RunCell {
  /** Line of its opening fence, from 1 on. */
  readonly line: number;
  /** In the order in which they were shown. */
  readonly outputs: readonly NotebookOutput[];
}

/** The whole specification of a chart: a notebook writes what is its own. */
export function wholeChart({ chart, heightPx }: ShownFigure, config: Config): TopLevelSpec {
  return {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    width: 'container',
    height: Math.max(60, heightPx - axesPx),
    ...chart,
    config: { ...config, ...(chart.config as object | undefined) },
  } as unknown as TopLevelSpec;
}

/** What an axis and its title take below a chart [px]. */
const axesPx = 45;
