import { GAS_CONSTANT_J_PER_MOL_K } from '../physics/gas-constant.ts';
import type { LeakSort } from './standing-test.ts';

/** An opening as the vacuum sees it, and the pressure that it will have behind it. */
export interface LeakUnderPressureOptions {
  /** Rise of the evacuated volume by air coming in from the atmosphere [Pa/s]. */
  readonly leakPaPerS: number;
  readonly volumeM3: number;
  /** In the vacuum [K]. */
  readonly temperatureK: number;
  readonly atmospherePa: number;
  /** Pressure of the nitrogen [Pa], absolute. */
  readonly pressurePa: number;
  readonly sort: LeakSort;
}

/** From memory: molar masses [g/mol], and viscosities at 20 °C [µPa·s]. */
const air = { molarMass: 28.96, viscosity: 18.2 };
const nitrogen = { molarMass: 28.01, viscosity: 17.6 };

/**
 * Nitrogen that the same opening loses under pressure, by an equation of its own, so that what judges is not tried on
 * itself.
 *
 * @returns loss [mol/s]
 *
 * What comes in under vacuum is driven by the whole atmosphere. A channel finer than the free path passes p₁ − p₂, by
 * 1/√M; a short hole is sonic both ways and passes p₁, by 1/√M; a long capillary passes p₁² − p₂², by 1/η.
 */
export function leakUnderPressure(options: LeakUnderPressureOptions): number {
  const { leakPaPerS, volumeM3, temperatureK, atmospherePa, pressurePa, sort } = options;
  const comesInMolPerS = (leakPaPerS * volumeM3) / (GAS_CONSTANT_J_PER_MOL_K * temperatureK);
  const ratio = pressurePa / atmospherePa;
  const lightness = Math.sqrt(air.molarMass / nitrogen.molarMass);
  switch (sort) {
    case 'molecular':
      return comesInMolPerS * (ratio - 1) * lightness;
    case 'hole':
      return comesInMolPerS * ratio * lightness;
    case 'laminar':
      return comesInMolPerS * (ratio ** 2 - 1) * (air.viscosity / nitrogen.viscosity);
  }
}
