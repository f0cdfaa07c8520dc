import type { Random } from '../../numerics/random.ts';

/** The unrest of a scale: white noise, and gusts where it stands in the wind. */
export class ScaleNoise {
  /** Standard deviation of the white part [kg]. */
  readonly whiteKg: number;
  readonly #random: Random;
  readonly #gustKg: number;
  readonly #gustS: number;
  #gust = 0;
  #lastS = Number.NEGATIVE_INFINITY;

  constructor(random: Random, wind: boolean) {
    this.#random = random;
    this.whiteKg = random.logUniform(0.0003, 0.0015);
    const gustKg = random.uniform(0.002, 0.006);
    this.#gustS = random.uniform(1, 5);
    this.#gustKg = wind ? gustKg : 0;
  }

  /** What it adds to the display [kg]; times must not fall from call to call. */
  at(atS: number): number {
    const kept = Math.exp((this.#lastS - atS) / this.#gustS);
    this.#lastS = atS;
    if (this.#gustKg > 0) {
      this.#gust = kept * this.#gust + this.#random.normal(0, this.#gustKg * Math.sqrt(1 - kept * kept));
    }
    return this.#gust + this.#random.normal(0, this.whiteKg);
  }
}
