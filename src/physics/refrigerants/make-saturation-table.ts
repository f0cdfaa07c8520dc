import { DryholdError } from '../../errors.ts';
import { octaveEnds, octavePlaces } from '../../numerics/octave-cubic.ts';
import type { BoundaryGoal, BoundaryKind } from '../equations/boundary-start.ts';
import { type BoundaryPoint, PhaseBoundary } from '../equations/phase-boundary.ts';
import { temperatureReader } from '../tables/fast-saturation.ts';
import type { DensityCurve, SaturationTable, TemperatureCurve } from '../tables/saturation-table.ts';
import type { Refrigerant } from './mixture-of.ts';

const LOW_K = 183.15;
/** Shares of the temperature where the curve ends that the table may have to stay below it. */
const MARGINS = [0.001, 0.005, 0.01, 0.02, 0.03, 0.05];
/** How many intervals before the end of the curve are tried for it. */
const BENT = 24;
/** Largest error of temperatures read half way between two entries [K]. */
const TOLERANCE_K = 0.002;
/** Significant figures of the numbers: fewer than the equations are solved to, so that every machine makes the same ones. */
const FIGURES = 8;

/**
 * Solves the equations of a refrigerant for a table of its saturation curve.
 *
 * For blends that are not among the tables; takes some tenths of a second.
 *
 * @returns some 140 values a curve, from −90 °C (or the triple point, where that is warmer) to 0.1 % below the end of the curve,
 *   or as far as temperatures read from it stay within some 3 mK
 * @throws DryholdError `not-converged` where the equations give no curve
 *
 * Accuracy: of the readings of such a table see `fastSaturationOf`.
 *
 * @example
 * makeSaturationTable(refrigerantNamed('R-32')).bubble.temperaturesK[0] // 183.15
 */
export function makeSaturationTable(refrigerant: Refrigerant): SaturationTable {
  const bubble = new TabulatedBoundary(refrigerant, 'bubble');
  const dew = new TabulatedBoundary(refrigerant, 'dew');
  return {
    designation: refrigerant.designation,
    bubble: bubble.temperatures(),
    ...(refrigerant.components.length > 1 && { dew: dew.temperatures() }),
    liquid: bubble.densities(),
    vapour: dew.densities(),
  };
}

class TabulatedBoundary {
  readonly #boundary: PhaseBoundary;
  readonly #name: string;
  readonly #lowK: number;
  readonly #endK: number;

  constructor(refrigerant: Refrigerant, kind: BoundaryKind) {
    this.#boundary = new PhaseBoundary(refrigerant, kind);
    this.#name = `${kind} point of ${refrigerant.designation}`;
    this.#lowK = Math.max(LOW_K, refrigerant.lowestK);
    this.#at('temperatureK', this.#lowK);
    const end = this.#boundary.at('temperatureK', Math.max(...refrigerant.components.map((fluid) => fluid.criticalK)));
    this.#endK = rounded(end.converged ? end.temperatureK : end.lastK);
  }

  #at(goal: BoundaryGoal, value: number): BoundaryPoint {
    const point = this.#boundary.at(goal, value);
    if (point.converged) return point;
    const unit = goal === 'temperatureK' ? 'K' : 'Pa';
    throw new DryholdError('not-converged', { quantity: `${this.#name} at ${value} ${unit}` });
  }

  densities(): DensityCurve {
    const endK = this.#endK;
    const [nearK, farK] = octaveEnds(rounded(endK * MARGINS[0]), rounded(endK - this.#lowK));
    // From the far end on: the boundary walks best towards the critical region.
    const places = octavePlaces(nearK, farK).reverse();
    const densities = places.map((place) => this.#at('temperatureK', endK - place).densityKgPerM3).reverse();
    return { endK, nearK, farK, densitiesKgPerM3: densities.map(rounded) };
  }

  temperatures(): TemperatureCurve {
    for (const margin of MARGINS) {
      const curve = this.#temperaturesTo(this.#endK * (1 - margin));
      if (this.#errorK(curve) <= TOLERANCE_K) return curve;
    }
    throw new DryholdError('not-converged', { quantity: `table of the ${this.#name}` });
  }

  #temperaturesTo(highK: number): TemperatureCurve {
    const [lowPa, highPa] = octaveEnds(
      rounded(this.#at('temperatureK', this.#lowK).pressurePa),
      rounded(this.#at('temperatureK', highK).pressurePa),
    );
    const temperatures = octavePlaces(lowPa, highPa).map((place) => this.#at('pressurePa', place).temperatureK);
    return { lowPa, highPa, temperaturesK: temperatures.map(rounded) };
  }

  /** The largest error half way between two of the last entries, where the curve bends most. */
  #errorK(curve: TemperatureCurve): number {
    const reader = temperatureReader(curve);
    const places = octavePlaces(curve.lowPa, curve.highPa).slice(-BENT - 1);
    const errorsK = places.slice(1).map((place, i) => {
      const between = (places[i] + place) / 2;
      return Math.abs(reader.at(between) - this.#at('pressurePa', between).temperatureK);
    });
    return Math.max(...errorsK);
  }
}

function rounded(value: number): number {
  return Number(value.toPrecision(FIGURES));
}
