import { Random } from '../../src/numerics/random.ts';
import type { VacuumSeries } from '../../src/traces/vacuum-series.ts';

/** One micron of mercury [Pa]. */
export const MICRON_PA = 0.133322368;

export interface SyntheticLogOptions {
  /** Time between readings [s]. */
  readonly intervalS?: number;
  /** Noise of a reading, relative. */
  readonly noiseRatio?: number;
  /** The step of the gauge [µm]; 0 for none. */
  readonly stepMicrons?: number;
  /** Above it the gauge shows "over" [µm]. */
  readonly rangeMicrons?: number;
  readonly seed?: number;
}

/** Draws a vacuum log stretch by stretch, in microns; the time at each joint is known by construction. */
export class SyntheticLog {
  nowS = 0;
  readonly #elapsedS: number[] = [];
  readonly #microns: number[] = [];
  readonly #options: Required<SyntheticLogOptions>;
  readonly #random: Random;

  constructor(options: SyntheticLogOptions = {}) {
    this.#options = {
      intervalS: 2,
      noiseRatio: 0,
      stepMicrons: 0,
      rangeMicrons: Number.POSITIVE_INFINITY,
      seed: 1,
      ...options,
    };
    this.#random = new Random(this.#options.seed);
  }

  /** A stretch whose pressure is `at(seconds since its start)` [µm]. */
  stretch(durationS: number, at: (sinceS: number) => number): this {
    const { intervalS, noiseRatio, stepMicrons, rangeMicrons } = this.#options;
    for (let sinceS = intervalS; sinceS <= durationS + 1e-9; sinceS += intervalS) {
      const true_ = at(sinceS);
      const noisy = true_ * (1 + this.#random.normal(0, noiseRatio));
      const shown = stepMicrons > 0 ? Math.round(noisy / stepMicrons) * stepMicrons : noisy;
      this.#elapsedS.push(this.nowS + sinceS);
      this.#microns.push(true_ > rangeMicrons ? Number.POSITIVE_INFINITY : shown);
    }
    this.nowS += durationS;
    return this;
  }

  /** Exponential fall from one pressure towards a floor, to within a thousandth of the way. */
  pull(fromMicrons: number, floorMicrons: number, durationS: number): this {
    const tauS = durationS / Math.log(1000);
    return this.stretch(durationS, (s) => floorMicrons + (fromMicrons - floorMicrons) * Math.exp(-s / tauS));
  }

  hold(microns: number, durationS: number): this {
    return this.stretch(durationS, () => microns);
  }

  /** A steady rise [µm/s]. */
  rise(fromMicrons: number, micronsPerS: number, durationS: number): this {
    return this.stretch(durationS, (s) => fromMicrons + micronsPerS * s);
  }

  /** Gas let in up to the atmosphere, and left there. */
  break(durationS: number): this {
    return this.stretch(durationS, () => 700_000);
  }

  /** A stretch in which nothing is recorded. */
  gap(durationS: number): this {
    this.nowS += durationS;
    return this;
  }

  /** The readings, without those before `fromS` and after `toS`; the clock starts anew at `fromS`. */
  series(fromS = 0, toS = Number.POSITIVE_INFINITY, gauge: string | null = null): VacuumSeries {
    const kept = this.#elapsedS.flatMap((at, index) => (at >= fromS && at <= toS ? [index] : []));
    return {
      gauge,
      elapsedS: Float64Array.from(kept, (index) => this.#elapsedS[index] - fromS),
      vacuumPa: Float64Array.from(kept, (index) => this.#microns[index] * MICRON_PA),
    };
  }
}
