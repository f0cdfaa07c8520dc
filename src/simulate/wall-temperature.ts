import type { Random } from '../numerics/random.ts';

/** The weather that a part of the circuit stands in. */
export interface Weather {
  /** Temperature of the air at the start [K], its drift [K/s], and its swing over a day [K]. */
  readonly airK: number;
  readonly driftKPerS: number;
  readonly swingK: number;
  /** Where in the day's swing the test begins [rad]. */
  readonly dayPhase: number;
  /** How much warmer the sun makes the wall [K], and how long sun and cloud last on average [s]. */
  readonly sunK: number;
  readonly sunnyS: number;
  readonly cloudyS: number;
  /** How fast the wall follows [s]. */
  readonly wallS: number;
}

const DAY_S = 86_400;

/** The wall of one part of a circuit: air that drifts, sun and cloud, and the wall's own slowness. */
export class WallTemperature {
  temperatureK: number;
  readonly #random: Random;
  readonly #weather: Weather;
  #sunny: boolean;
  #atS = 0;

  constructor(random: Random, weather: Weather) {
    this.#random = random;
    this.#weather = weather;
    const { sunnyS, cloudyS } = weather;
    this.#sunny = random.chance(sunnyS / (sunnyS + cloudyS));
    this.temperatureK = this.airK + (this.#sunny ? weather.sunK : 0);
  }

  get airK(): number {
    const { airK, driftKPerS, swingK, dayPhase } = this.#weather;
    const swing = Math.sin(dayPhase + (2 * Math.PI * this.#atS) / DAY_S) - Math.sin(dayPhase);
    return airK + driftKPerS * this.#atS + swingK * swing;
  }

  /** Moves on by some seconds. */
  advance(stepS: number): void {
    const { sunK, sunnyS, cloudyS, wallS } = this.#weather;
    this.#atS += stepS;
    const lastsS = this.#sunny ? sunnyS : cloudyS;
    if (sunK > 0 && this.#random.chance(1 - Math.exp(-stepS / lastsS))) this.#sunny = !this.#sunny;
    const towardsK = this.airK + (this.#sunny ? sunK : 0);
    this.temperatureK = towardsK + (this.temperatureK - towardsK) * Math.exp(-stepS / wallS);
  }
}
