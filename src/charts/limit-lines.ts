/** A limit with the words on its line; no words where a neighbour's line carries them. */
export interface LimitLine {
  readonly pa: number;
  readonly text: string;
  /** Where the words stand: above (negative) or below the line [px]. */
  readonly offsetPx: number;
}

export interface LimitLinesOptions {
  /** Absolute pressure [Pa] → text. */
  readonly pressureText: (pa: number) => string;
  /** Absolute pressure [Pa] → height above the axis [px], rising. */
  readonly heightPx: (pa: number) => number;
  /** On which side of its line a limit without near neighbours has its words. */
  readonly alone: (pa: number) => 'above' | 'below';
}

const ABOVE_PX = -8;
const BELOW_PX = 9;
/** Two rows of words fit between lines that are this far apart [px]. */
const APART_PX = 27;

/**
 * Limits as lines to draw, their words placed so that none run into each other: equal limits share a line; of close
 * ones the lowest has its words below, and all others have theirs together above the highest.
 *
 * @returns from low to high
 */
export function limitLines(
  limits: readonly { readonly label: string; readonly pa: number }[],
  options: LimitLinesOptions,
): LimitLine[] {
  const labels = new Map<number, Set<string>>();
  for (const { label, pa } of limits) labels.set(pa, (labels.get(pa) ?? new Set()).add(label));
  const lines = [...labels]
    .toSorted(([a], [b]) => a - b)
    .map(([pa, words]) => ({ pa, text: `${[...words].join(', ')}: ${options.pressureText(pa)}` }));
  const groups: { pa: number; text: string }[][] = [];
  for (const line of lines) {
    const last = groups.at(-1)?.at(-1);
    if (last !== undefined && options.heightPx(line.pa) - options.heightPx(last.pa) < APART_PX)
      groups.at(-1)?.push(line);
    else groups.push([line]);
  }
  return groups.flatMap(([lowest, ...others]) => {
    if (lowest === undefined) return [];
    if (others.length === 0)
      return [{ ...lowest, offsetPx: options.alone(lowest.pa) === 'above' ? ABOVE_PX : BELOW_PX }];
    const together = others.map(({ text }) => text).join(' · ');
    return [
      { ...lowest, offsetPx: BELOW_PX },
      ...others.map(({ pa }, index) => ({ pa, text: index === others.length - 1 ? together : '', offsetPx: ABOVE_PX })),
    ];
  });
}
