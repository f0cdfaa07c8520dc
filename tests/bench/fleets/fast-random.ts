import { normalShareBelow } from '../../../src/numerics/normal-distribution.ts';
import { Random } from '../../../src/numerics/random.ts';

const levels = 2 ** 16;
const quantiles = normalQuantiles(levels);

/** Random numbers whose normal deviates come from a table of 65,536: several times faster, and out to 4.3 deviations only. */
export class FastRandom extends Random {
  override normal(mean = 0, deviation = 1): number {
    return mean + deviation * quantiles[Math.floor(this.uniform(0, levels))];
  }
}

/** Quantiles of the normal distribution in the middle of so many even steps of probability. */
function normalQuantiles(count: number): Float64Array {
  const table = new Float64Array(count);
  let z = 0;
  for (let at = count / 2; at < count; at += 1) {
    // From the quantile before, Newton's step never goes too far: above 0 the distribution bends down.
    for (let step = 1; Math.abs(step) > 1e-9; z += step)
      step = ((at + 0.5) / count - normalShareBelow(z)) * Math.sqrt(2 * Math.PI) * Math.exp((z * z) / 2);
    table[at] = z;
    table[count - 1 - at] = -z;
  }
  return table;
}
