import type { ScaleSeries } from '../../src/traces/scale-series.ts';

/** Draws what a scale shows, stretch by stretch, a reading every `intervalS`; masses are known by construction. */
export class ScaleLog {
  readonly #elapsedS: number[] = [];
  readonly #scaleKg: number[] = [];
  readonly #intervalS: number;
  readonly #stepKg: number;
  #nowS = 0;
  #kg: number;
  #shiftKg = 0;

  constructor(kg: number, { intervalS = 1, stepKg = 0.005 } = {}) {
    this.#kg = kg;
    this.#intervalS = intervalS;
    this.#stepKg = stepKg;
  }

  /** The load stands, or falls by so much at a steady rate. */
  run(durationS: number, fallsByKg = 0): this {
    const count = Math.round(durationS / this.#intervalS);
    for (let nth = 0; nth < count; nth += 1) {
      this.#kg -= fallsByKg / count;
      this.#read();
    }
    return this;
  }

  /** From here on the display is off by so much more; no refrigerant moved. */
  shift(kg: number): this {
    this.#shiftKg += kg;
    return this;
  }

  /** Set to 0 with what is on it. */
  zero(): this {
    this.#shiftKg = -this.#kg;
    return this;
  }

  /** Nothing is read for a while. */
  gap(durationS: number, fallsByKg = 0): this {
    this.#nowS += durationS;
    this.#kg -= fallsByKg;
    return this;
  }

  series(): ScaleSeries {
    return { elapsedS: Float64Array.from(this.#elapsedS), scaleKg: Float64Array.from(this.#scaleKg) };
  }

  #read(): void {
    this.#elapsedS.push(this.#nowS);
    const shownKg = this.#kg + this.#shiftKg;
    this.#scaleKg.push(Math.round(shownKg / this.#stepKg) * this.#stepKg);
    this.#nowS += this.#intervalS;
  }
}
