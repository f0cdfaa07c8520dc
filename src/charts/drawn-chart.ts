import type { Spec } from 'vega';

/** A chart as a picture that any program shows. */
export interface DrawnChart {
  /** An `svg` element, without what stands before one in a file. */
  readonly svg: string;
  readonly heightPx: number;
}

export interface DrawChartOptions {
  /** Of the chart with its axes [px]. */
  readonly widthPx: number;
  /** Rows of the tables that it reads by name. */
  readonly tables: ReadonlyMap<string, readonly object[]>;
}

/**
 * Draws a chart without a browser. Texts are measured by their number of characters, so that labels may stand a little wider apart than in a
 * page.
 *
 * @param spec compiled, of a width that its page would give
 */
export async function drawnChart(spec: Spec, { widthPx, tables }: DrawChartOptions): Promise<DrawnChart> {
  const { parse, View } = await import('vega');
  const view = new View(parse(ofWidth(spec, widthPx)), { renderer: 'none' });
  for (const { name } of spec.data ?? []) {
    const rows = tables.get(name);
    if (rows !== undefined)
      view.data(
        name,
        rows.map((row) => ({ ...row })),
      );
  }
  try {
    const svg = await view.toSVG();
    const [, height = ''] = /<svg[^>]* height="([\d.]+)"/.exec(svg) ?? [];
    return { svg, heightPx: Number(height) };
  } finally {
    view.finalize();
  }
}

/** The same chart of a width of its own: the signal that asks the page for it has a value instead. */
function ofWidth(spec: Spec, widthPx: number): Spec {
  const signals = (spec.signals ?? []).map((signal) =>
    signal.name === 'width' ? { name: 'width', value: widthPx } : signal,
  );
  return { ...spec, signals };
}
