import type { TopLevelSpec } from 'vega-lite';

/** The rows of a named data set of a chart. */
export function valuesOf(chart: TopLevelSpec, name: string): unknown {
  const { data, layer } = chart as { data?: Named; layer: { data?: Named }[] };
  return [data, ...layer.map((part) => part.data)].find((each) => each?.name === name && each.values)?.values;
}

interface Named {
  name: string;
  values?: unknown[];
}
