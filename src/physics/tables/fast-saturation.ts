import { MonotoneCubic } from '../../numerics/monotone-cubic.ts';
import type { DensityCurve, SaturationTable, TemperatureCurve } from './saturation-table.ts';

/**
 * The saturation curve of a refrigerant, read from its table: nothing is solved.
 *
 * For series of many readings. Every method is NaN outside its table: below −90 °C (or the triple point), within some tenths
 * of a kelvin of the critical region, or beyond it.
 *
 * Accuracy: see `fastSaturationOf`.
 */
export class FastSaturation {
  readonly designation: string;
  readonly #bubble: MonotoneCubic;
  readonly #dew: MonotoneCubic;
  readonly #liquid: MonotoneCubic;
  readonly #vapour: MonotoneCubic;
  readonly #liquidEndK: number;
  readonly #vapourEndK: number;

  constructor(table: SaturationTable) {
    this.designation = table.designation;
    this.#bubble = temperatureReader(table.bubble);
    this.#dew = temperatureReader(table.dew);
    this.#liquid = densityReader(table.liquid);
    this.#vapour = densityReader(table.vapour);
    this.#liquidEndK = table.liquid.endK;
    this.#vapourEndK = table.vapour.endK;
  }

  /** Temperature [K] at which the liquid begins to boil at a pressure [Pa], absolute: subcooling is counted from it. */
  bubbleK(pressurePa: number): number {
    return this.#bubble.at(Math.log(pressurePa));
  }

  /** Temperature [K] at which the vapour begins to condense at a pressure [Pa], absolute: superheat is counted from it. */
  dewK(pressurePa: number): number {
    return this.#dew.at(Math.log(pressurePa));
  }

  /** Density [kg/m³] of the boiling liquid at a temperature [K]. */
  liquidKgPerM3(temperatureK: number): number {
    return this.#liquid.at(densityPlace(temperatureK, this.#liquidEndK));
  }

  /** Density [kg/m³] of the condensing vapour at a temperature [K]. */
  vapourKgPerM3(temperatureK: number): number {
    return this.#vapour.at(densityPlace(temperatureK, this.#vapourEndK));
  }
}

/** Reads temperatures [K] at places ln p. */
export function temperatureReader({ lowPa, highPa, temperaturesK }: TemperatureCurve): MonotoneCubic {
  return new MonotoneCubic(Math.log(lowPa), Math.log(highPa), temperaturesK);
}

function densityReader({ lowK, highK, endK, densitiesKgPerM3 }: DensityCurve): MonotoneCubic {
  return new MonotoneCubic(densityPlace(lowK, endK), densityPlace(highK, endK), densitiesKgPerM3);
}

/** A measure of temperature in which densities bend little, right up to the critical region. */
export function densityPlace(temperatureK: number, endK: number): number {
  return -Math.sqrt(Math.sqrt(1 - temperatureK / endK));
}
