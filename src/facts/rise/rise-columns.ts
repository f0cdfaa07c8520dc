import { PartialProfile } from '../../numerics/partial-profile.ts';
import { columnCount, places, type RiseBasis, settlingTimesS } from './rise-basis.ts';

/** Some sets of parts beside a leak: those of a dry system, with moisture, and of wet ones with a dead end. */
export type RiseSets = 'dry' | 'moist' | 'wet';

const { tail, slow, settling, saturating } = places;
/** Each of some sets of parts, and with each equalisation. */
const andSettling = (parts: readonly (readonly number[])[]) =>
  parts.flatMap((set) => [set, ...settlingTimesS.map((_, index) => [...set, settling + index])]);
const sets: Readonly<Record<RiseSets, readonly (readonly number[])[]>> = {
  dry: andSettling([[], [tail]]),
  moist: andSettling([[saturating], [saturating, tail]]),
  wet: andSettling([
    [saturating, slow],
    [saturating, tail, slow],
  ]),
};

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
    this.#bounds[slow] = basis.outlook.mostVapourPa;
    this.#bounds[saturating] = basis.outlook.mostVapourPa;
    this.solver = new PartialProfile(columnCount, this.#products);
  }

  /**
   * Solves for each set of parts; after each that has a solution, `solver` holds it while `use` runs.
   *
   * @param saturatingS time constant of the saturating part [s]; without meaning for dry sets
   */
  eachSet(which: RiseSets, saturatingS: number, use: (set: readonly number[]) => void): void {
    if (which !== 'dry' && saturatingS !== this.#saturatingS) {
      this.basis.saturate(saturatingS);
      this.#set(saturating, this.basis.shapes[saturating], 1);
      this.#saturatingS = saturatingS;
    }
    for (const set of sets[which]) if (this.solver.solve(set, this.#bounds)) use(set);
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
