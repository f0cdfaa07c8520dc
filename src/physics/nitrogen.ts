import { DryholdError } from '../errors.ts';
import { phaseState } from './equations/phase-state.ts';
import { composeRefrigerant } from './refrigerants/compose-refrigerant.ts';
import { vapourDensity } from './refrigerants/vapour-density.ts';

/** Nitrogen in a closed volume at two instants. */
export interface NitrogenPressureAfterOptions {
  /** Pressure at the first [Pa], absolute. */
  readonly startPa: number;
  /** Temperature of the gas at the first and at the second [K], from 126.192 (critical point) to 2000. */
  readonly startK: number;
  readonly endK: number;
}

const LOWEST_K = 126.192;
const nitrogen = composeRefrigerant('R-728', { 'R-728': 1 });

/**
 * Density of nitrogen gas.
 *
 * @param temperatureK temperature [K], from 126.192 (critical point) to 2000
 * @param pressurePa pressure [Pa], absolute, above 0, up to 2.2 GPa
 * @returns density [kg/m³]
 * @throws DryholdError `out-of-range` outside those limits; `not-converged` where no density is found
 *
 * Source: `span-2000`. Accuracy: within 0.00001 % of CoolProp 8.0 at −50…70 °C up to 15 MPa; the paper gives 0.02 % itself.
 *
 * @example
 * nitrogenDensity(293.15, 4e6) // 46.242
 */
export function nitrogenDensity(temperatureK: number, pressurePa: number): number {
  assertGas(temperatureK);
  const density = vapourDensity(nitrogen, temperatureK, pressurePa);
  if (density.converged) return density.densityKgPerM3;
  throw new DryholdError('not-converged', { quantity: `density of nitrogen at ${temperatureK} K`, at: pressurePa });
}

/**
 * Pressure of nitrogen in a closed, tight volume after a change of its temperature.
 *
 * For a standing pressure test: what the gauge should show at the end, if nothing was lost.
 *
 * @returns pressure [Pa], absolute
 * @throws DryholdError as `nitrogenDensity`
 *
 * Source: `span-2000`, at constant density. Accuracy: as `nitrogenDensity`; the swelling of the tube is left out, and the gas is
 * seldom as warm throughout as the place where it is measured.
 *
 * @example
 * nitrogenPressureAfter({ startPa: 4238184, startK: 294.261, endK: 310.928 }) // 4502302
 */
export function nitrogenPressureAfter({ startPa, startK, endK }: NitrogenPressureAfterOptions): number {
  assertGas(endK);
  const densityMolPerM3 = nitrogenDensity(startK, startPa) / nitrogen.molarMassKgPerMol;
  return phaseState(nitrogen, endK, densityMolPerM3, nitrogen.moleFractions).pressurePa;
}

function assertGas(temperatureK: number): void {
  if (temperatureK >= LOWEST_K && temperatureK <= nitrogen.highestK) return;
  throw new DryholdError('out-of-range', {
    quantity: 'temperature of nitrogen gas [K]',
    bound: `${LOWEST_K} (critical point) to ${nitrogen.highestK}`,
    received: temperatureK,
  });
}
