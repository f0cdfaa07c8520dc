import type { Random } from '../../src/numerics/random.ts';

const stepsKg = { '0.001': 0.1, '0.002': 0.15, '0.005': 0.25, '0.01': 0.35, '0.02': 0.15 } as const;
const plantStepKg = 0.05;
const yearDays = 365;

/** What is around a scale while it weighs. */
export interface Weather {
  readonly day: number;
  readonly temperatureC: number;
  /** Since it was switched on and set to 0. */
  readonly onH: number;
}

/** A scale that is off in ways of its own: by a ratio, by its temperature, by a zero that wanders. */
export class DrawnScale {
  readonly stepKg: number;
  readonly gainRatio: number;
  readonly #gainPerK: number;
  readonly #zeroKgPerK: number;
  readonly #zeroKgPerH: number;
  readonly #creepKg: number;
  readonly #creepDays: number;
  readonly #creepPhase: number;

  constructor(random: Random, isPlant: boolean) {
    this.stepKg = isPlant ? plantStepKg : Number(random.weighted(stepsKg));
    this.gainRatio = random.chance(0.05) ? random.choice([-0.008, 0.008]) : random.uniform(-0.003, 0.003);
    this.#gainPerK = random.uniform(-5e-5, 5e-5);
    this.#zeroKgPerK = random.uniform(-3e-4, 3e-4);
    this.#zeroKgPerH = random.uniform(-0.008, 0.008);
    this.#creepKg = random.uniform(0, 0.02);
    this.#creepDays = random.uniform(150, 400);
    this.#creepPhase = random.uniform(0, 2 * Math.PI);
  }

  /** What it shows of a load [kg]. */
  shownKg(loadKg: number, { day, temperatureC, onH }: Weather): number {
    const warmK = temperatureC - 20;
    const creepKg = this.#creepKg * Math.sin((2 * Math.PI * day) / this.#creepDays + this.#creepPhase);
    const zeroKg = this.#zeroKgPerH * onH + this.#zeroKgPerK * warmK + creepKg;
    return this.rounded(loadKg * (1 + this.gainRatio + this.#gainPerK * warmK) + zeroKg);
  }

  rounded(kg: number): number {
    return Number((Math.round(kg / this.stepKg) * this.stepKg).toFixed(3));
  }
}

/** The temperature of a day in a year of cold and hot ones [°C]. */
export function drawnTemperatureC(random: Random, day: number): number {
  return 14 + 13 * Math.sin((2 * Math.PI * (day - 100)) / yearDays) + random.normal(0, 4);
}
