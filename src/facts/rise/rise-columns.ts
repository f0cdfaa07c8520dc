import { PartialProfile } from '../../numerics/partial-profile.ts';
import { columnCount, places, type RiseBasis, settlingTimesS } from './rise-basis.ts';

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

/** What was read and the parts of a rise as weighted columns freed of their means, and how sets of parts explain it. */
export class RiseColumns {
  readonly basis: RiseBasis;
  /** Weighted mean of what was read. */
  readonly mean: number;
  /** Holds the solution of a set. */
  readonly solver: PartialProfile;
  readonly #weights: Float64Array;
  readonly #sumOfWeights: number;
  readonly #columns: readonly Float64Array[];
  readonly #products = new Float64Array(columnCount * columnCount);
  /** The most that each part may be, by its place. */
  readonly #bounds = new Float64Array(columnCount).fill(Number.POSITIVE_INFINITY);
  /** The least: of a shift, anything. */
  readonly #floors = new Float64Array(columnCount);
  #saturatingS = 0;

  /** @param steady 1 for the steady rise itself as the profiled column, −1 for its opposite */
  constructor(basis: RiseBasis, values: Float64Array, weights: Float64Array, steady: 1 | -1 = 1) {
    this.basis = basis;
    this.#weights = weights;
    let sum = 0;
    for (let i = 0; i < weights.length; i += 1) sum += weights[i];
    this.#sumOfWeights = sum;
    this.#columns = Array.from({ length: columnCount }, () => new Float64Array(weights.length));
    this.mean = this.#set(0, values, 1);
    for (let place = 1; place < saturating; place += 1)
      this.#set(place, basis.shapes[place], place === places.leak ? steady : 1);
    this.#bounds[tail] = basis.outlook.mostVapourPa / basis.gains[tail];
    this.#bounds[slow] = basis.outlook.mostVapourPa;
    this.#bounds[saturating] = basis.outlook.mostVapourPa;
    this.#floors[shift] = Number.NEGATIVE_INFINITY;
    this.solver = new PartialProfile(columnCount, this.#products);
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
    this.#set(shift, this.basis.shapes[shift], 1);
    const { offsets, slopes } = this.solver;
    for (const index of [0, ...settlings])
      for (const set of withShift[which][index]) {
        if (!this.#solve(set)) continue;
        const [size, perLeak] = [mostShift * offsets[0], mostShift * slopes[0]];
        if (!this.solver.narrow(size - offsets[1], perLeak - slopes[1])) continue;
        if (this.solver.narrow(size + offsets[1], perLeak + slopes[1])) use(set);
      }
  }

  /** Solves for one set of parts with a time constant of the saturating one [s]; false where it has no solution. */
  solve(set: readonly number[], saturatingS: number): boolean {
    if (set.includes(saturating)) this.#saturate(saturatingS);
    return this.#solve(set);
  }

  #solve(set: readonly number[]): boolean {
    return this.solver.solve(set, this.#bounds, this.#floors);
  }

  #saturate(saturatingS: number): void {
    if (saturatingS === this.#saturatingS) return;
    this.basis.saturate(saturatingS);
    this.#set(saturating, this.basis.shapes[saturating], 1);
    this.#saturatingS = saturatingS;
  }

  /** Sets a column, freed of its mean, and its products with those before it; returns the mean. */
  #set(place: number, values: Float64Array, factor: number): number {
    const weights = this.#weights;
    const column = this.#columns[place];
    const count = column.length;
    let mean = 0;
    for (let i = 0; i < count; i += 1) mean += weights[i] * values[i];
    mean = (factor * mean) / this.#sumOfWeights;
    for (let i = 0; i < count; i += 1) column[i] = factor * values[i] - mean;
    for (let other = 0; other <= place; other += 1) {
      const beside = this.#columns[other];
      let sum = 0;
      for (let i = 0; i < count; i += 1) sum += weights[i] * column[i] * beside[i];
      this.#products[place * columnCount + other] = sum;
      this.#products[other * columnCount + place] = sum;
    }
    return mean;
  }
}
