/**
 * Seeded random numbers: xoshiro128** seeded by splitmix32. The words are the same on every machine; normal,
 * exponential and log-uniform deviates pass through the logarithm of the JavaScript engine, whose last digit is its
 * own.
 *
 * For simulations and tests that must repeat. Not for secrets.
 *
 * Source: `blackman-vigna-2021`; the normal deviates by Marsaglia's polar method, from memory.
 *
 * @example
 * const [one, same, other] = [new Random(7), new Random(7), new Random(7, 1)].map((random) => random.uniform());
 * [one === same, one === other] // [true, false]
 */
export class Random {
  #a: number;
  #b: number;
  #c: number;
  #d: number;
  #spare = Number.NaN;

  /** @param seed any integer; `stream` numbers give independent generators of one seed. */
  constructor(seed: number, stream = 0) {
    let state = (Math.imul(seed | 0, 0x9e3779b1) ^ Math.imul((stream | 0) + 1, 0x85ebca6b)) | 0;
    const next = () => {
      state = (state + 0x9e3779b9) | 0;
      let mixed = Math.imul(state ^ (state >>> 16), 0x21f0aaad);
      mixed = Math.imul(mixed ^ (mixed >>> 15), 0x735a2d97);
      return (mixed ^ (mixed >>> 15)) | 0;
    };
    this.#a = next();
    this.#b = next();
    this.#c = next();
    this.#d = next() | 1;
  }

  /**
   * The generator at a given inner state, four 32-bit words that are not all 0: for holding it against the published
   * one.
   */
  static fromState(a: number, b: number, c: number, d: number): Random {
    const random = new Random(0);
    random.#a = a | 0;
    random.#b = b | 0;
    random.#c = c | 0;
    random.#d = d | 0;
    return random;
  }

  #bits(): number {
    const scaled = Math.imul(this.#b, 5);
    const result = Math.imul((scaled << 7) | (scaled >>> 25), 9);
    const shifted = this.#b << 9;
    this.#c ^= this.#a;
    this.#d ^= this.#b;
    this.#b ^= this.#c;
    this.#a ^= this.#d;
    this.#c ^= shifted;
    this.#d = (this.#d << 11) | (this.#d >>> 21);
    return result >>> 0;
  }

  /** Uniform from `low` (in) to `high` (out), 32 bits. */
  uniform(low = 0, high = 1): number {
    return low + ((high - low) * this.#bits()) / 4294967296;
  }

  /** Uniform in the logarithm, both ends above 0. */
  logUniform(low: number, high: number): number {
    return Math.exp(this.uniform(Math.log(low), Math.log(high)));
  }

  /** Normal deviate. */
  normal(mean = 0, deviation = 1): number {
    if (!Number.isNaN(this.#spare)) {
      const spare = this.#spare;
      this.#spare = Number.NaN;
      return mean + deviation * spare;
    }
    let u = 0;
    let v = 0;
    let square = 0;
    do {
      u = this.uniform(-1, 1);
      v = this.uniform(-1, 1);
      square = u * u + v * v;
    } while (square >= 1 || square === 0);
    const scale = Math.sqrt((-2 * Math.log(square)) / square);
    this.#spare = v * scale;
    return mean + deviation * u * scale;
  }

  /** Whole number from `low` to `high`, both in. */
  integer(low: number, high: number): number {
    return low + Math.floor(this.uniform() * (high - low + 1));
  }

  /** True with that probability. */
  chance(probability: number): boolean {
    return this.uniform() < probability;
  }

  /** Exponential deviate of that mean. */
  exponential(mean: number): number {
    return -mean * Math.log(1 - this.uniform());
  }

  /** One of the items, all alike. */
  choice<Item>(items: readonly Item[]): Item {
    return items[this.integer(0, items.length - 1)];
  }

  /** One of the names, by weight; weights need not add up to 1. */
  weighted<Name extends string>(weights: Readonly<Partial<Record<Name, number>>>): Name {
    const entries = Object.entries(weights) as [Name, number][];
    let left = this.uniform() * entries.reduce((sum, [, weight]) => sum + weight, 0);
    for (const [name, weight] of entries) {
      left -= weight;
      if (left < 0) return name;
    }
    return (entries.at(-1) as [Name, number])[0];
  }
}
