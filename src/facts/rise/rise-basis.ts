import { mostSamples, type RiseSamples } from './rise-samples.ts';

/** What may come in beside a steady leak. */
export interface RiseOutlook {
  /** How long the pump had been on when the valve was shut [s]: the clock of outgassing. */
  readonly pumpedS: number;
  /** Most that moisture or outgassing may add [Pa]: water's vapour pressure. */
  readonly mostVapourPa: number;
}

/** Kinds of parts that a rise may be made of. */
export type RisePart = 'leak' | 'tail' | 'slow' | 'settling' | 'saturating';

// Common practice, no source; set on simulated fleets (tests/truth).
/** Time constants of the equalisation [s]: seconds through a suction line. Up to a minute through a liquid line looks like moisture. */
export const settlingTimesS: readonly number[] = [4, 9, 18];
/** Water from a dead end comes with a time constant of so many lengths of the test: all but steadily. */
const slowTests = 6;

const saturatingPlace = 4 + settlingTimesS.length;
/**
 * Places of the parts in a table of columns: 0 is what was read. The equalisations share a kind. The last is no part of its
 * own: by how much the saturating one changes as the logarithm of its time constant does.
 */
export const places = {
  leak: 1,
  tail: 2,
  slow: 3,
  settling: 4,
  saturating: saturatingPlace,
  shift: saturatingPlace + 1,
} as const;
export const columnCount = places.shift + 1;

/** A column for each place, as long as any rise has samples. */
export function columnMemory(): readonly Float64Array[] {
  return Array.from({ length: columnCount }, () => new Float64Array(mostSamples));
}

/** One memory for all rises, one after the other: fresh memory costs as much as what is computed in it. */
const memory = { shapes: columnMemory(), gains: new Float64Array(columnCount), timesS: new Float64Array(columnCount) };

/** The kind of part that stands at a place. */
export function partAt(place: number): RisePart {
  if (place === places.leak) return 'leak';
  if (place === places.tail) return 'tail';
  if (place === places.slow) return 'slow';
  return place >= places.saturating ? 'saturating' : 'settling';
}

/**
 * The shapes of the parts of a rise over its means, each of size 1:
 * p(t) = p₀ + k·t + A·(1 − exp(−t/τ)) + C·ln(1 + t/t₀) + D·(1 − exp(−t/τ_slow)) + E·(1 − exp(−t/τₑ)).
 *
 * The basis of one rise holds until that of the next is made.
 */
export class RiseBasis {
  readonly sinceS: Float64Array;
  /** Length of the test, to its last mean [s]. */
  readonly testS: number;
  readonly outlook: RiseOutlook;
  /** By place; the saturating one as it was last set. */
  readonly shapes = memory.shapes;
  /** What a part of size 1 adds over the test, by place. */
  readonly gains = memory.gains;
  /** Time constants by place [s]; 0 for the leak. */
  readonly timesS = memory.timesS;

  constructor({ sinceS }: RiseSamples, outlook: RiseOutlook) {
    this.sinceS = sinceS;
    this.testS = sinceS[sinceS.length - 1];
    this.outlook = outlook;
    this.timesS[places.saturating] = 0;
    this.shapes[places.leak].set(sinceS);
    this.gains[places.leak] = this.testS;
    const tail = this.shapes[places.tail];
    for (let i = 0; i < sinceS.length; i += 1) tail[i] = Math.log1p(sinceS[i] / outlook.pumpedS);
    this.gains[places.tail] = Math.log1p(this.testS / outlook.pumpedS);
    this.timesS[places.tail] = outlook.pumpedS;
    this.#saturate(places.slow, slowTests * this.testS);
    for (let index = 0; index < settlingTimesS.length; index += 1)
      this.#saturate(places.settling + index, settlingTimesS[index]);
  }

  /** Gives the saturating part a time constant [s]. */
  saturate(timeS: number): void {
    if (timeS !== this.timesS[places.saturating]) this.#saturate(places.saturating, timeS);
  }

  /** Sets the shape of a shift to that of the saturating part as it is. */
  shift(): void {
    const { sinceS } = this;
    const timeS = this.timesS[places.saturating];
    const saturating = this.shapes[places.saturating];
    const shift = this.shapes[places.shift];
    for (let i = 0; i < sinceS.length; i += 1) shift[i] = (-sinceS[i] / timeS) * (1 - saturating[i]);
    this.gains[places.shift] = (-this.testS / timeS) * (1 - this.gains[places.saturating]);
  }

  #saturate(place: number, timeS: number): void {
    const { sinceS } = this;
    const shape = this.shapes[place];
    const rate = -1 / timeS;
    for (let i = 0; i < sinceS.length; i += 1) shape[i] = 1 - Math.exp(sinceS[i] * rate);
    this.gains[place] = 1 - Math.exp(this.testS * rate);
    this.timesS[place] = timeS;
  }
}
