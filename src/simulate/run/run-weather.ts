import type { RunTestOptions } from './run-test.ts';

/** The air around a running system: outdoors it drifts and clouds pass, indoors the room is cooled and doors open. */
export class RunWeather {
  outdoorC: number;
  indoorC: number;
  indoorWetBulbC: number;
  readonly #options: RunTestOptions;
  readonly #pullK: number;
  readonly #doorAtS: number;
  readonly #doorK: number;
  #cloudK = 0;
  #lastS = 0;

  constructor(options: RunTestOptions) {
    const { random, disturbed, restS, durationS } = options;
    this.#options = options;
    this.outdoorC = options.outdoorC;
    this.indoorC = options.indoorC;
    this.indoorWetBulbC = options.indoorWetBulbC;
    this.#pullK = disturbed === true ? random.uniform(0.2, 2) * (options.heating === true ? -1 : 1) : 0;
    this.#doorAtS =
      disturbed === true && random.chance(0.3) ? random.uniform(restS, durationS) : Number.POSITIVE_INFINITY;
    this.#doorK = random.uniform(0.5, 1.5);
  }

  /** Moves on to a moment, so long after the compressor started [s]. */
  advance(atS: number, runningS: number): void {
    const { random, disturbed, outdoorC, outdoorDriftKPerS = 0, indoorC, indoorWetBulbC } = this.#options;
    const keeps = Math.exp(-(atS - this.#lastS) / 400);
    if (disturbed === true) this.#cloudK = this.#cloudK * keeps + random.normal(0, 0.5 * Math.sqrt(1 - keeps ** 2));
    this.#lastS = atS;
    this.outdoorC = outdoorC + outdoorDriftKPerS * atS + this.#cloudK;
    const cooled = this.#pullK * (1 - Math.exp(-Math.max(0, runningS) / 1500));
    const door = atS >= this.#doorAtS ? this.#doorK * Math.exp(-(atS - this.#doorAtS) / 240) : 0;
    this.indoorC = indoorC - cooled + door;
    this.indoorWetBulbC = indoorWetBulbC + 0.8 * (door - cooled);
  }
}
