import { putInPlace } from './put-in-place.ts';
import { Scratch } from './scratch.ts';

const scratch = new Scratch();

/**
 * A quantile of some numbers, of Hyndman and Fan's type 7, without changing them; NaN for none.
 *
 * Source: `hyndman-fan-1996`.
 *
 * @param share from 0, the least, to 1, the most
 * @example quantile([1, 2, 3, 5], 0.5) // 2.5
 */
export function quantile(values: ArrayLike<number>, share: number): number {
  const count = values.length;
  if (count === 0) return Number.NaN;
  const own = scratch.take(count);
  let isPlain = true;
  for (let i = 0; i < count; i += 1) {
    own[i] = values[i];
    // In the order of a sort NaN comes last, and −0 before 0; comparing does not tell these.
    if (Number.isNaN(own[i]) || Object.is(own[i], -0)) isPlain = false;
  }
  const place = Math.min(1, Math.max(0, share)) * (count - 1);
  const below = Math.floor(place);
  const above = Math.min(count - 1, below + 1);
  if (isPlain) {
    putInPlace(own, below);
    putInPlace(own.subarray(above), 0);
  } else own.sort();
  return own[below] + (place - below) * (own[above] - own[below]);
}
