import { Scratch } from './scratch.ts';

const scratch = { falling: new Scratch(), rising: new Scratch(), means: new Scratch(), sizes: new Scratch() };

/** Where a row of numbers turns from falling to rising, and how badly each place for the turn fits. */
export interface ValleySplit {
  /** The last number of the falling part where the fit is best; the last of them where several are. */
  readonly index: number;
  /** Squared residuals with the turn after each number; the next call writes over them. */
  readonly misfits: Float64Array;
  /** Squared residuals where nothing ever rises. */
  readonly fallingMisfit: number;
}

/**
 * Fits numbers that never rise up to a place and never fall from there on, by least squares, for every place at once.
 *
 * For finding a turn without assuming the shape of either side, and without a window: steps of a coarse gauge on a
 * falling curve are no turn to it. Pool adjacent violators from both ends, in time proportional to the length.
 *
 * Source: `barlow-1972` (isotonic regression by pooling adjacent violators).
 * @param values finite numbers, at least one
 * @example valleySplit([3, 2, 1, 2, 3]).index // 2
 */
export function valleySplit(values: ArrayLike<number>): ValleySplit {
  const count = values.length;
  const misfits = scratch.falling.take(count);
  pooledMisfits(values, 0, 1, misfits);
  const fallingMisfit = misfits[count - 1];
  const rising = scratch.rising.take(count);
  pooledMisfits(values, count - 1, -1, rising);
  let index = 0;
  for (let i = 0; i < count; i += 1) {
    if (i < count - 1) misfits[i] += rising[count - 2 - i];
    if (misfits[i] <= misfits[index]) index = i;
  }
  return { index, misfits, fallingMisfit };
}

/** Squared residuals of the best never-rising fit to the first 1, 2, … numbers, counted from one end on. */
function pooledMisfits(values: ArrayLike<number>, from: number, way: 1 | -1, misfits: Float64Array): void {
  const count = values.length;
  const means = scratch.means.take(count);
  const sizes = scratch.sizes.take(count);
  let pools = 0;
  let misfit = 0;
  for (let i = 0; i < count; i += 1) {
    let mean = -values[from + way * i];
    let size = 1;
    while (pools > 0 && means[pools - 1] > mean) {
      pools -= 1;
      const both = sizes[pools] + size;
      misfit += ((means[pools] - mean) ** 2 * sizes[pools] * size) / both;
      mean += ((means[pools] - mean) * sizes[pools]) / both;
      size = both;
    }
    means[pools] = mean;
    sizes[pools] = size;
    pools += 1;
    misfits[i] = misfit;
  }
}
