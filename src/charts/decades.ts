const decadeLabel = "datum.value < 1 ? format(datum.value, '~f') : join(split(format(datum.value, ',.0f'), ','), ' ')";

/** The axis of a logarithmic scale: a line and a label at each power of ten. */
export const decadeAxis = {
  values: [0.1, 1, 10, 100, 1e3, 1e4, 1e5, 1e6],
  format: '~r',
  labelExpr: decadeLabel,
};

/** From the power of ten below the smallest to the one above the largest; two decades at least. */
export function decades(values: readonly (number | null)[]): [number, number] {
  const positive = values.filter((value) => value !== null && value > 0) as number[];
  if (positive.length === 0) return [10, 1e5];
  const low = Math.floor(Math.log10(Math.min(...positive)) + 1e-9);
  const high = Math.ceil(Math.log10(Math.max(...positive)) - 1e-9);
  return [10 ** low, 10 ** Math.max(high, low + 2)];
}
