import { DryholdError } from '../errors.ts';

/**
 * How far to shift the upper half of a number, which holds its sign, its exponent and its first digits, so that it
 * counts sixteenths of octaves: an octave lies between a power of two and the next.
 */
const SHIFT = 16;
const number = new Float64Array(1);
const halves = new Int32Array(number.buffer);
const UPPER = new Uint8Array(Uint16Array.of(1).buffer)[0] === 1 ? 1 : 0;

/** Which interval of all that there are a number above 0 lies in. */
function intervalOf(x: number): number {
  number[0] = x;
  return halves[UPPER] >> SHIFT;
}

/** Where an interval begins. */
function beginOf(interval: number): number {
  halves[UPPER] = interval << SHIFT;
  halves[1 - UPPER] = 0;
  return number[0];
}

/** Intervals narrower than this share of a whole one are slivers: rounding would bend the curve there. */
const SLIVER = 0.1;

/**
 * Ends for an `OctaveCubic`: those given, moved inwards where they would leave a sliver of an interval.
 *
 * @param low @param high ends, `low` above 0 and below `high`, several intervals apart
 * @example octaveEnds(0.9999, 1.1251) // [1, 1.125]
 */
export function octaveEnds(low: number, high: number): [low: number, high: number] {
  const [lowBegin, lowEnd] = [0, 1].map((next) => beginOf(intervalOf(low) + next));
  const [highBegin, highEnd] = [0, 1].map((next) => beginOf(intervalOf(high) + next));
  return [
    lowEnd - low < SLIVER * (lowEnd - lowBegin) ? lowEnd : low,
    high - highBegin < SLIVER * (highEnd - highBegin) ? highBegin : high,
  ];
}

/**
 * Places for an `OctaveCubic`: both ends, and every sixteenth of an octave between them.
 *
 * @param low @param high ends, `low` above 0 and below `high`
 * @example octavePlaces(0.99, 1.125) // [0.99, 1, 1.0625, 1.125]
 */
export function octavePlaces(low: number, high: number): number[] {
  const places = [low];
  for (let interval = intervalOf(low) + 1; beginOf(interval) < high; interval += 1) places.push(beginOf(interval));
  return [...places, high];
}

/**
 * A cubic through points at `octavePlaces`, that rises or falls wherever they do.
 *
 * For reading tables millions of times: the interval is found from the bits of the number, without a logarithm, and
 * intervals are as fine against the number itself everywhere.
 *
 * Source: `hyman-1983`: slopes of fourth order, held to three times the lesser neighbouring one.
 *
 * @example new OctaveCubic(1, 1.25, [1, 2, 3, 4, 5]).at(1.15625) // 3.5
 */
export class OctaveCubic {
  readonly #low: number;
  readonly #high: number;
  readonly #first: number;
  /** Six numbers an interval: where it begins, its width's reciprocal, and the coefficients of powers 0 to 3. */
  readonly #rows: Float64Array;

  /**
   * @param low @param high the ends that the places were made for
   * @param values one for each place, at least five, rising or falling throughout
   * @throws DryholdError `out-of-range` for fewer than five places, or another number of values
   */
  constructor(low: number, high: number, values: readonly number[]) {
    const places = octavePlaces(low, high);
    if (places.length < 5 || values.length !== places.length) {
      const bound = `${Math.max(places.length, 5)}, one for each place`;
      throw new DryholdError('out-of-range', { quantity: 'number of values', bound, received: values.length });
    }
    this.#low = low;
    this.#high = high;
    this.#first = intervalOf(low);
    this.#rows = new Float64Array(6 * places.length);
    for (let i = 0; i + 1 < places.length; i += 1) {
      const width = places[i + 1] - places[i];
      const rise = values[i + 1] - values[i];
      const start = width * monotoneSlope(places, values, i);
      const end = width * monotoneSlope(places, values, i + 1);
      this.#rows.set(
        [places[i], 1 / width, values[i], start, 3 * rise - 2 * start - end, start + end - 2 * rise],
        6 * i,
      );
    }
    // Where the last place begins an interval of its own, its value stands alone in it.
    this.#rows.set([high, 0, values[values.length - 1]], 6 * (places.length - 1));
  }

  /** The value at a place; NaN outside the ends, and for NaN. */
  at(x: number): number {
    if (!(x >= this.#low && x <= this.#high)) return Number.NaN;
    const row = 6 * (intervalOf(x) - this.#first);
    const rows = this.#rows;
    const t = (x - rows[row]) * rows[row + 1];
    return rows[row + 2] + t * (rows[row + 3] + t * (rows[row + 4] + t * rows[row + 5]));
  }
}

/** Slope at a point of the polynomial through the five nearest, held so that the cubic stays monotone. */
function monotoneSlope(places: readonly number[], values: readonly number[], i: number): number {
  const steepness = (k: number) => (values[k + 1] - values[k]) / (places[k + 1] - places[k]);
  const last = places.length - 1;
  const before = steepness(Math.max(i - 1, 0));
  const after = steepness(Math.min(i, last - 1));
  const limit = 3 * Math.min(Math.abs(before), Math.abs(after));
  const from = Math.max(0, Math.min(i - 2, last - 4));
  const direction = Math.sign(after);
  return direction * Math.min(Math.max(direction * fivePointSlope(places, values, from, i), 0), limit);
}

/** The derivative at place `i` of the polynomial through five points from `from` on. */
function fivePointSlope(places: readonly number[], values: readonly number[], from: number, i: number): number {
  let slope = 0;
  for (let j = from; j < from + 5; j += 1) {
    let weight = j === i ? 0 : 1;
    for (let k = from; k < from + 5; k += 1) {
      if (k === j) continue;
      if (j === i) weight += 1 / (places[i] - places[k]);
      else weight *= (k === i ? 1 : places[i] - places[k]) / (places[j] - places[k]);
    }
    slope += weight * values[j];
  }
  return slope;
}
