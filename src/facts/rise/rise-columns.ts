import { PartialProfile } from '../../numerics/partial-profile.ts';
import { columnCount, columnMemory, places, type RiseBasis, settlingTimesS } from './rise-basis.ts';
import { mostSamples } from './rise-samples.ts';

/** Some sets of parts beside a leak: those of a dry system, with moisture, and of wet ones with a dead end. */
export type RiseSets = 'dry' | 'moist' | 'wet';

const { tail, slow, settling, saturating, shift } = places;
const plain: Readonly<Record<RiseSets, readonly (readonly number[])[]>> = {
  dry: [[], [tail]],
  moist: [[saturating], [saturating, tail]],
  wet: [
    [saturating, slow],
    [saturating, tail, slow],
  ],
};
/** The same without an equalisation, and with each. */
const withSettling = Object.fromEntries(
  Object.entries(plain).map(([which, parts]) => [
    which,
    [parts, ...settlingTimesS.map((_, index) => parts.map((set) => [...set, settling + index]))],
  ]),
) as unknown as Record<RiseSets, (readonly number[])[][]>;

/** The same sets with a shift of the saturating part behind it. */
const withShift = Object.fromEntries(
  Object.entries(withSettling).map(([which, bySettling]) => [
    which,
    bySettling.map((sets) => sets.map(([first, ...others]) => [first, shift, ...others])),
  ]),
) as unknown as Record<RiseSets, (readonly number[])[][]>;

const allSettlings = settlingTimesS.map((_, index) => index + 1);
/** A time constant may shift by this ratio either way; farther, a straight line does not tell what becomes of the part. */
const mostShift = 0.3;

/** One memory for all rises, one after the other, as for their bases. */
const memory = {
  columns: columnMemory(),
  /** Weights times the column that is being set. */
  weighted: new Float64Array(mostSamples),
  products: new Float64Array(columnCount * columnCount),
  /** The most that each part may be, by its place. */
  bounds: new Float64Array(columnCount).fill(Number.POSITIVE_INFINITY),
  /** The least: of a shift, anything. */
  floors: new Float64Array(columnCount).fill(Number.NEGATIVE_INFINITY, shift),
};
const solver = new PartialProfile(columnCount, memory.products);

/**
 * What was read and the parts of a rise as weighted columns freed of their means, and how sets of parts explain it. Those of
 * one rise hold until those of the next are made.
 */
export class RiseColumns {
  readonly basis: RiseBasis;
  /** Weighted mean of what was read. */
  readonly mean: number;
  /** Holds the solution of a set. */
  readonly solver = solver;
  readonly #weights: Float64Array;
  readonly #sumOfWeights: number;
  #saturatingS = 0;

  constructor(basis: RiseBasis, values: Float64Array, weights: Float64Array) {
    this.basis = basis;
    this.#weights = weights;
    let sum = 0;
    for (let i = 0; i < weights.length; i += 1) sum += weights[i];
    this.#sumOfWeights = sum;
    this.mean = this.#set(0, values);
    for (let place = 1; place < saturating; place += 1) this.#set(place, basis.shapes[place]);
    memory.bounds[tail] = basis.outlook.mostVapourPa / basis.gains[tail];
    memory.bounds[slow] = basis.outlook.mostVapourPa;
    memory.bounds[saturating] = basis.outlook.mostVapourPa;
  }

  /**
   * Solves for each set of parts without an equalisation and with those asked for; after each that has a solution,
   * `solver` holds it while `use` runs.
   *
   * @param saturatingS time constant of the saturating part [s]; without meaning for dry sets
   * @param settlings which equalisations, from 1; all where left out
   */
  eachSet(
    which: RiseSets,
    saturatingS: number,
    use: (set: readonly number[], settling: number) => void,
    settlings: readonly number[] = allSettlings,
  ): void {
    if (which !== 'dry') this.#saturate(saturatingS);
    const sets = withSettling[which];
    for (const set of sets[0]) if (this.#solve(set)) use(set, 0);
    for (const index of settlings) for (const set of sets[index]) if (this.#solve(set)) use(set, index);
  }

  /**
   * The same with a time constant that may shift: what lies between the time constants tried.
   *
   * @param settlings which equalisations, from 1
   */
  eachShifted(
    which: Exclude<RiseSets, 'dry'>,
    saturatingS: number,
    use: (set: readonly number[]) => void,
    settlings: readonly number[],
  ): void {
    this.#saturate(saturatingS);
    this.basis.shift();
    this.#set(shift, this.basis.shapes[shift]);
    const { offsets, slopes } = solver;
    for (const index of [0, ...settlings])
      for (const set of withShift[which][index]) {
        if (!this.#solve(set)) continue;
        const size = mostShift * offsets[0];
        const perLeak = mostShift * slopes[0];
        if (!solver.narrow(size - offsets[1], perLeak - slopes[1])) continue;
        if (solver.narrow(size + offsets[1], perLeak + slopes[1])) use(set);
      }
  }

  /** Solves for one set of parts with a time constant of the saturating one [s]; false where it has no solution. */
  solve(set: readonly number[], saturatingS: number): boolean {
    if (set.includes(saturating)) this.#saturate(saturatingS);
    return this.#solve(set);
  }

  /**
   * Takes other values as read, and the opposite of the steady rise as the profiled column: how much of a leak the parts
   * could hide. All else stays as it is.
   */
  turn(values: Float64Array): void {
    this.#set(0, values);
    const leak = memory.columns[places.leak];
    for (let i = 0; i < this.#weights.length; i += 1) leak[i] = -leak[i];
    for (let place = 1; place < columnCount; place += 1) {
      this.#weigh(memory.columns[place]);
      this.#multiply(place, 0);
      if (place !== places.leak) this.#put(place, places.leak, -memory.products[place * columnCount + places.leak]);
    }
  }

  #solve(set: readonly number[]): boolean {
    return solver.solve(set, memory.bounds, memory.floors);
  }

  #saturate(saturatingS: number): void {
    if (saturatingS === this.#saturatingS) return;
    this.basis.saturate(saturatingS);
    this.#set(saturating, this.basis.shapes[saturating]);
    this.#saturatingS = saturatingS;
  }

  /** Sets a column, freed of its mean, and its products with those before it; returns the mean. */
  #set(place: number, values: Float64Array): number {
    const weights = this.#weights;
    const column = memory.columns[place];
    const { weighted } = memory;
    const count = weights.length;
    let mean = 0;
    for (let i = 0; i < count; i += 1) mean += weights[i] * values[i];
    mean /= this.#sumOfWeights;
    for (let i = 0; i < count; i += 1) {
      const value = values[i] - mean;
      column[i] = value;
      weighted[i] = weights[i] * value;
    }
    // Four sums at a time, none of which waits for another; then what is left of them.
    let other = 0;
    for (; other + 3 <= place; other += 4) this.#multiplyFour(place, other);
    for (; other <= place; other += 1) this.#multiply(place, other);
    solver.forget();
    return mean;
  }

  #weigh(column: Float64Array): void {
    const weights = this.#weights;
    const weighted = memory.weighted;
    for (let i = 0; i < weights.length; i += 1) weighted[i] = weights[i] * column[i];
  }

  /** The product of the weighted column, that of a place, with another. */
  #multiply(place: number, other: number): void {
    const weighted = memory.weighted;
    const beside = memory.columns[other];
    let sum = 0;
    const count = this.#weights.length;
    for (let i = 0; i < count; i += 1) sum += weighted[i] * beside[i];
    this.#put(place, other, sum);
  }

  #multiplyFour(place: number, other: number): void {
    const weighted = memory.weighted;
    const one = memory.columns[other];
    const two = memory.columns[other + 1];
    const three = memory.columns[other + 2];
    const four = memory.columns[other + 3];
    let sumOne = 0;
    let sumTwo = 0;
    let sumThree = 0;
    let sumFour = 0;
    const count = this.#weights.length;
    for (let i = 0; i < count; i += 1) {
      const own = weighted[i];
      sumOne += own * one[i];
      sumTwo += own * two[i];
      sumThree += own * three[i];
      sumFour += own * four[i];
    }
    this.#put(place, other, sumOne);
    this.#put(place, other + 1, sumTwo);
    this.#put(place, other + 2, sumThree);
    this.#put(place, other + 3, sumFour);
  }

  #put(place: number, other: number, product: number): void {
    memory.products[place * columnCount + other] = product;
    memory.products[other * columnCount + place] = product;
  }
}
