import { OctaveCubic } from '../../numerics/octave-cubic.ts';
import type { DensityCurve, SaturationTable, TemperatureCurve } from './saturation-table.ts';

/**
 * The saturation curve of a refrigerant, read from its table: nothing is solved.
 *
 * For series of many readings. Every method is NaN outside its table: below some −90 °C, and near the end of the curve or
 * beyond it. Densities reach to within 0.4 K of the end, temperatures to within 0.5 K, for blends that do not boil at one
 * temperature to within 4 K.
 *
 * Accuracy: see `fastSaturationOf`.
 */
export class FastSaturation {
  readonly designation: string;
  readonly #bubble: OctaveCubic;
  readonly #dew: OctaveCubic;
  readonly #liquid: OctaveCubic;
  readonly #vapour: OctaveCubic;
  readonly #liquidEndK: number;
  readonly #vapourEndK: number;

  constructor(table: SaturationTable) {
    this.designation = table.designation;
    this.#bubble = temperatureReader(table.bubble);
    this.#dew = table.dew === undefined ? this.#bubble : temperatureReader(table.dew);
    this.#liquid = densityReader(table.liquid);
    this.#vapour = densityReader(table.vapour);
    this.#liquidEndK = table.liquid.endK;
    this.#vapourEndK = table.vapour.endK;
  }

  /** Temperature [K] at which the liquid begins to boil at a pressure [Pa], absolute: subcooling is counted from it. */
  bubbleK(pressurePa: number): number {
    return this.#bubble.at(pressurePa);
  }

  /** Temperature [K] at which the vapour begins to condense at a pressure [Pa], absolute: superheat is counted from it. */
  dewK(pressurePa: number): number {
    return this.#dew.at(pressurePa);
  }

  /** Density [kg/m³] of the boiling liquid at a temperature [K]. */
  liquidKgPerM3(temperatureK: number): number {
    return this.#liquid.at(this.#liquidEndK - temperatureK);
  }

  /** Density [kg/m³] of the condensing vapour at a temperature [K]. */
  vapourKgPerM3(temperatureK: number): number {
    return this.#vapour.at(this.#vapourEndK - temperatureK);
  }
}

/** Reads temperatures [K] at pressures [Pa]. */
export function temperatureReader({ lowPa, highPa, temperaturesK }: TemperatureCurve): OctaveCubic {
  return new OctaveCubic(lowPa, highPa, temperaturesK);
}

/** Reads densities [kg/m³] at distances below the end of the curve [K], so that entries are closest near it. */
function densityReader({ nearK, farK, densitiesKgPerM3 }: DensityCurve): OctaveCubic {
  return new OctaveCubic(nearK, farK, densitiesKgPerM3);
}
