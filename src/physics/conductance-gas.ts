import { limits } from './limits.ts';
import { requireWithin } from './require-within.ts';

/** A gas other than air at 20 °C. */
export interface ConductanceGas {
  /** Temperature [K]. */
  readonly temperatureK: number;
  /** Molar mass [kg/mol]. */
  readonly molarMassKgPerMol: number;
  /** Viscosity at that temperature [Pa·s]; that of air at 20 °C where left out. */
  readonly viscosityPaS?: number;
  /** Ratio of heat capacities, above 1, for flow near the speed of sound; 1.4 where left out. */
  readonly heatCapacityRatio?: number;
}

/** Refuses a gas that there is none of; throws DryholdError `out-of-range`. */
export function requireConductanceGas(gas: ConductanceGas): void {
  requireWithin(limits.temperature, gas.temperatureK);
  requireWithin(limits.molarMass, gas.molarMassKgPerMol);
  if (gas.viscosityPaS !== undefined) requireWithin(limits.viscosity, gas.viscosityPaS);
  if (gas.heatCapacityRatio !== undefined) requireWithin(limits.heatCapacityRatio, gas.heatCapacityRatio);
}
