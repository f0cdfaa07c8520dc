import { parse, View } from 'vega';
import { expressionInterpreter } from 'vega-interpreter';
import type { TopLevelSpec } from 'vega-lite';
import { compileChart } from '../../src/charts/compile-chart.ts';

/** Rows of each named data set, as a page ships them. */
export type Datasets = Readonly<Record<string, readonly object[]>>;

/** What a mark was drawn with. */
export interface DrawnItem {
  readonly x?: number;
  readonly y?: number;
  readonly text?: string;
  readonly opacity?: number;
  readonly shape?: string;
  readonly datum: Record<string, unknown>;
}

/** A chart as a page draws it: without the compiler, expressions interpreted, rows given by name, signals set. */
export class FilteredView {
  readonly #view: View;

  private constructor(view: View) {
    this.#view = view;
  }

  /** Draws a chart with rows, of which each data set that the chart names is taken. */
  static async of(
    chart: TopLevelSpec,
    datasets: Datasets,
    signals: Record<string, unknown> = {},
  ): Promise<FilteredView> {
    const { spec } = await compileChart(chart);
    const view = new View(parse(spec, undefined, { ast: true }), { renderer: 'none', expr: expressionInterpreter });
    const names = (spec.data ?? []).map(({ name }) => name);
    for (const [name, rows] of Object.entries(datasets)) if (names.includes(name)) view.data(name, [...rows]);
    const drawn = new FilteredView(view);
    await drawn.filter(signals);
    return drawn;
  }

  /** Sets signals, as the page's filter does. */
  async filter(signals: Record<string, unknown>): Promise<this> {
    for (const [name, value] of Object.entries(signals)) this.#view.signal(name, value as never);
    await this.#view.runAsync();
    return this;
  }

  /** All that marks of a kind (`rule`, `symbol`, `text`, `rect`, `line`) were drawn with, layer by layer; axes aside. */
  items(kind: string): DrawnItem[][] {
    const [root] = (this.#view.scenegraph() as unknown as { root: { items: { items: Mark[] }[] } }).root.items;
    return (root?.items ?? [])
      .filter(({ marktype, role }) => marktype === kind && role === 'mark')
      .map(({ items }) => items);
  }

  /** What the lines of a chart that draws several were drawn through. */
  linePoints(): DrawnItem[] {
    const inside = ({ marktype, items }: Mark): DrawnItem[] =>
      marktype === 'line'
        ? items
        : (items as unknown as { items?: Mark[] }[]).flatMap((item) => (item.items ?? []).flatMap(inside));
    return inside((this.#view.scenegraph() as unknown as { root: Mark }).root);
  }

  /** Where every mark stands and what it says, in an order that does not hang on the order of the rows. */
  places(): string[] {
    const place = ({ x = 0, y = 0, text = '' }: DrawnItem) => `${x.toFixed(6)} ${y.toFixed(6)} ${text}`;
    return ['rect', 'symbol', 'text', 'rule', 'line'].flatMap((kind) =>
      this.items(kind).flatMap((items, layer) => items.map((item) => `${kind} ${layer}: ${place(item)}`).sort()),
    );
  }

  /** The first and last of a scale's domain. */
  domain(scale: string): unknown[] {
    return (this.#view as unknown as { scale: (name: string) => { domain: () => unknown[] } }).scale(scale).domain();
  }

  svg(): Promise<string> {
    return this.#view.toSVG();
  }
}

interface Mark {
  marktype: string;
  role: string;
  items: DrawnItem[];
}
