import type { TopLevelSpec } from 'vega-lite';
import type { KeyEntry } from './chart-key.ts';
import type { Html } from './html.ts';

/** A chart with all that is said around it: a figure of a page, and what a picture of it needs to stand alone. */
export interface Figure {
  /** What kind of chart it is, as its file is called. */
  readonly name: string;
  /** What it is about, where the page says so around it; a picture says it before the title. */
  readonly subject?: string;
  /** The question that it answers. */
  readonly title: string;
  /** Units, scales and how to read it. */
  readonly note?: string;
  /** The same, as far as it holds on the page alone: what its filters do. */
  readonly noteOnPage?: string;
  /** What the page says around it, for a picture. */
  readonly noteAlone?: string;
  readonly chart: TopLevelSpec;
  /** What the chart shows, for people who do not see it. */
  readonly description: string;
  /** Where the page has the figures, for them. */
  readonly figuresAt?: string;
  /** About how high the chart will be, axes included [px]. */
  readonly heightPx: number;
  /** What its marks mean. */
  readonly key?: readonly KeyEntry[];
  /** The same as a sentence. */
  readonly legend?: string;
  /** What a page shows below it, within the figure. */
  readonly below?: Html | false;
  /** Whether a page gives it less than all of its width. */
  readonly isNarrow?: boolean;
}
