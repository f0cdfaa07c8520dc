import { putInPlace } from './put-in-place.ts';
import { Scratch } from './scratch.ts';

const scratch = new Scratch();
/** So few numbers are sorted as they come in. */
const few = 12;

/**
 * The median of some numbers, without changing them; NaN for none.
 *
 * @example median([3, 1, 2]) // 2
 */
export function median(values: ArrayLike<number>): number {
  const count = values.length;
  if (count === 0) return Number.NaN;
  const own = scratch.take(count);
  for (let i = 0; i < count; i += 1) {
    const value = values[i];
    // In the order of a sort NaN comes last, and −0 before 0; comparing does not tell these.
    if (Number.isNaN(value) || Object.is(value, -0)) return middleOf(Float64Array.from(values).sort());
    own[i] = value;
  }
  const middle = count >> 1;
  if (count <= few) sortFew(own);
  else putInPlace(own, middle);
  return middleOf(own);
}

/** The middle of numbers that are sorted, or at least have none above their middle before it. */
function middleOf(values: Float64Array): number {
  const middle = values.length >> 1;
  if (values.length % 2 === 1) return values[middle];
  let below = values[middle - 1];
  for (let i = 0; i < middle - 1; i += 1) if (values[i] > below) below = values[i];
  return (below + values[middle]) / 2;
}

function sortFew(values: Float64Array): void {
  for (let i = 1; i < values.length; i += 1) {
    const value = values[i];
    let place = i;
    for (; place > 0 && values[place - 1] > value; place -= 1) values[place] = values[place - 1];
    values[place] = value;
  }
}
