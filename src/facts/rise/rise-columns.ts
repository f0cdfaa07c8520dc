import { PartialProfile } from '../../numerics/partial-profile.ts';
import type { RiseSamples } from './rise-samples.ts';

/** What may come in beside a steady leak. */
export interface RiseOutlook {
  /** How long the pump had been on when the valve was shut [s]: the clock of outgassing. */
  readonly pumpedS: number;
  /** Most that moisture may add [Pa]: water's vapour pressure. */
  readonly mostVapourPa: number;
}

// Common practice, no source; set on simulated fleets (tests/truth).
/** Time constants of the equalisation [s]: seconds through a suction line, up to a minute through a liquid line. */
const settlingTimesS: readonly number[] = [4, 18];
/** Water from a dead end comes with a time constant of so many lengths of the test: all but steadily. */
const slowTests = 6;

/** Places in the table of products. */
const [Y, T, TAIL, SLOW, SETTLING] = [0, 1, 2, 3, 4];
const SATURATING = SETTLING + settlingTimesS.length;
const SIZE = SATURATING + 1;

/** Each of some sets of parts, and with each equalisation. */
const andSettling = (sets: readonly (readonly number[])[]) =>
  sets.flatMap((parts) => [parts, ...settlingTimesS.map((_, index) => [...parts, SETTLING + index])]);
/** Every set of parts beside a leak, as places: those of a dry system, with moisture, and of wet ones with a dead end. */
const sets = {
  dry: andSettling([[], [TAIL]]),
  moist: andSettling([[SATURATING], [SATURATING, TAIL]]),
  wet: andSettling([
    [SATURATING, SLOW],
    [SATURATING, TAIL, SLOW],
  ]),
} as const;
export type RiseSets = keyof typeof sets;

/** What a part is: its kind, its time constant [s] where it has one, and what one of size 1 adds over the test. */
export interface RisePart {
  readonly kind: 'saturating' | 'tail' | 'slow' | 'settling';
  readonly timeS: number;
  readonly gain: number;
}

/**
 * The parts that a rise may be made of, as columns over its means, and the products of these:
 * p(t) = p₀ + k·t + A·(1 − exp(−t/τ)) + C·ln(1 + t/t₀) + D·(1 − exp(−t/τ_slow)) + E·(1 − exp(−t/τₑ)).
 */
export class RiseColumns {
  /** Length of the test, to its last mean [s]. */
  readonly testS: number;
  /** Weighted mean of what was read. */
  readonly mean: number;
  readonly solver: PartialProfile;
  readonly #samples: RiseSamples;
  readonly #outlook: RiseOutlook;
  readonly #sumOfWeights: number;
  readonly #columns: Float64Array[];
  readonly #products = new Float64Array(SIZE * SIZE);
  /** The most that each part may be, by its place. */
  readonly #bounds = new Float64Array(SIZE).fill(Number.POSITIVE_INFINITY);
  #saturatingS = 0;

  /** @param steady 1 for the steady rise itself as the profiled column, −1 for its opposite */
  constructor(samples: RiseSamples, outlook: RiseOutlook, steady: 1 | -1 = 1) {
    this.#samples = samples;
    this.#outlook = outlook;
    const { sinceS, vacuumPa, weights } = samples;
    this.testS = sinceS[sinceS.length - 1];
    this.#sumOfWeights = weights.reduce((sum, weight) => sum + weight, 0);
    this.#columns = Array.from({ length: SIZE }, () => new Float64Array(weights.length));
    this.#bounds[SLOW] = outlook.mostVapourPa;
    this.#bounds[SATURATING] = outlook.mostVapourPa;
    this.mean = this.#fill(Y, (i) => vacuumPa[i]);
    this.#fill(T, (i) => steady * sinceS[i]);
    this.#fill(TAIL, (i) => Math.log1p(sinceS[i] / outlook.pumpedS));
    this.#fillSaturating(SLOW, slowTests * this.testS);
    for (const [index, timeS] of settlingTimesS.entries()) this.#fillSaturating(SETTLING + index, timeS);
    this.solver = new PartialProfile(SIZE, this.#products);
  }

  /**
   * Solves for every set of parts; after each that has a solution, `solver` holds it while `use` runs.
   *
   * @param saturatingS time constant of the saturating part [s]; without meaning for dry sets
   */
  eachSet(which: RiseSets, saturatingS: number, use: (places: readonly number[]) => void): void {
    if (which !== 'dry' && saturatingS !== this.#saturatingS) this.#fillSaturating(SATURATING, saturatingS);
    if (which !== 'dry') this.#saturatingS = saturatingS;
    for (const places of sets[which]) if (this.solver.solve(places, this.#bounds)) use(places);
  }

  /** The part at a place, with the saturating one as it was last solved for. */
  part(place: number): RisePart {
    if (place === TAIL)
      return { kind: 'tail', timeS: this.#outlook.pumpedS, gain: Math.log1p(this.testS / this.#outlook.pumpedS) };
    const timeS =
      place === SLOW
        ? slowTests * this.testS
        : place === SATURATING
          ? this.#saturatingS
          : settlingTimesS[place - SETTLING];
    const kind = place === SLOW ? 'slow' : place === SATURATING ? 'saturating' : 'settling';
    return { kind, timeS, gain: 1 - Math.exp(-this.testS / timeS) };
  }

  #fillSaturating(place: number, timeS: number): void {
    const { sinceS } = this.#samples;
    this.#fill(place, (i) => 1 - Math.exp(-sinceS[i] / timeS));
  }

  /** Sets a column, freed of its mean, and its products with those before it; returns the mean. */
  #fill(place: number, valueAt: (index: number) => number): number {
    const { weights } = this.#samples;
    const column = this.#columns[place];
    let mean = 0;
    for (let i = 0; i < column.length; i += 1) {
      const value = valueAt(i);
      column[i] = value;
      mean += weights[i] * value;
    }
    mean /= this.#sumOfWeights;
    for (let i = 0; i < column.length; i += 1) column[i] -= mean;
    for (let other = 0; other <= place; other += 1) {
      const beside = this.#columns[other];
      let sum = 0;
      for (let i = 0; i < column.length; i += 1) sum += weights[i] * column[i] * beside[i];
      this.#products[place * SIZE + other] = sum;
      this.#products[other * SIZE + place] = sum;
    }
    return mean;
  }
}
