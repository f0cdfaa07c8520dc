/** The steps of a path such as jobs.*.readings.0. */
export function pathSteps(path: string): string[] {
  return path.split('.').filter((step) => step !== '');
}

/**
 * The rows below a value: a star stands for every element of a list, a list at the end of the path for its elements. An
 * element that is a list itself is a row, whose cells are named by their places.
 *
 * @param around the value and the objects around it, innermost first
 * @param isElement whether the value is an element of a list already
 * @returns the same for each row
 * @example [...rowsBelow([{ jobs: [{ id: 1, at: [5, 6] }] }], ['jobs', '*', 'at'])] // [[5, { id: 1, … }, …], [6, …]]
 */
export function* rowsBelow(
  around: readonly unknown[],
  steps: readonly string[],
  isElement = false,
): Generator<readonly unknown[]> {
  const [value] = around;
  const [step, ...further] = steps;
  const outside = Array.isArray(value) ? around.slice(1) : around;
  if (Array.isArray(value) && (step === '*' || (step === undefined && !isElement)))
    for (const element of value) yield* rowsBelow([element, ...outside], further, true);
  else if (step === undefined) yield around;
  // What is no list has no elements.
  else if (step !== '*') yield* rowsBelow([member(value, step), ...outside], further);
}

/**
 * What a path leads to from a row. A name that holds dots is tried as it stands first; each leading ^ goes to the object
 * around.
 *
 * @param around the row and the objects around it, innermost first
 * @returns undefined where there is nothing
 * @example valueAt([{ gauge: { pa: [7] } }], 'gauge.pa.0') // 7
 */
export function valueAt(around: readonly unknown[], path: string | number): unknown {
  if (typeof path === 'number') return member(around[0], String(path - 1));
  const outward = /^\^*/.exec(path)?.[0].length ?? 0;
  const from = around[outward];
  const rest = path.slice(outward).replace(/^\./, '');
  const whole = member(from, rest);
  return whole !== undefined ? whole : pathSteps(rest).reduce(member, from);
}

function member(value: unknown, step: string): unknown {
  // Of what a document says itself: a list's length is none of it.
  if (typeof value !== 'object' || value === null || !Object.prototype.propertyIsEnumerable.call(value, step))
    return undefined;
  return (value as Record<string, unknown>)[step];
}
