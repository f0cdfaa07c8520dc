import { type ConductanceGas, requireConductanceGas } from './conductance-gas.ts';
import { limits } from './limits.ts';
import { uncheckedNozzleThroughput } from './nozzle-throughput.ts';
import { requireWithin } from './require-within.ts';
import { uncheckedTubeConductance } from './tube-conductance.ts';

/**
 * What lies between a system and its pump: the throughput [Pa·m³/s] that it passes from a pressure before it to a lower
 * one behind it [Pa], absolute. It must grow with the first, must not grow with the second, and be 0 where they are the
 * same.
 */
export type Passage = (upstreamPa: number, downstreamPa: number) => number;

/**
 * A hose, a line or a valve core as a passage: a tube in every regime of flow, its ends counted, and no more than
 * sonic.
 *
 * For predicting a pull-down through it (`pullDownThroughHose`, `systemPumpingSpeed`).
 *
 * @param boreM inner diameter [m]
 * @param lengthM length [m]
 * @param gas temperature [K], molar mass [kg/mol], viscosity [Pa·s], ratio of heat capacities; air at 20 °C where left
 *   out
 * @returns the passage: throughput [Pa·m³/s] from both pressures [Pa]
 * @throws DryholdError `out-of-range` unless bore and length are above 0 and the gas is one, as `tubeConductance`
 *
 * Laminar flow at the mean of both pressures, or what an ideal nozzle of the same bore passes, whichever is less. The
 * two are not added as 1/C: sonic flow does not depend on the pressure behind, so it is a bound and no resistance in a
 * row.
 *
 * Source: `vacuum-conductance`, `isentropic-nozzle`. Accuracy: a hose as `tubeConductance` below some 1 kPa, where the
 * bound does not bind (a short valve core meets it at some hundred pascal). In the rough range it is optimistic, since
 * friction there is turbulent: for 5 L, a 6 cfm pump and 5 ft of hose the whole pull-down to 500 µm takes 1.3 % longer
 * with Blasius friction for a bore of 0.19 in, 0.2 % for 1/2 in (computed outside this project).
 *
 * @example
 * tubePassage(0.004826, 1.524)(66.661, 0) // 0.00155
 */
export function tubePassage(boreM: number, lengthM: number, gas?: ConductanceGas): Passage {
  requireWithin(limits.bore, boreM);
  requireWithin(limits.length, lengthM);
  if (gas !== undefined) requireConductanceGas(gas);
  const areaM2 = (Math.PI / 4) * boreM * boreM;
  return (upstreamPa, downstreamPa) => {
    const meanPa = (upstreamPa + downstreamPa) / 2;
    const laminarPaM3PerS =
      uncheckedTubeConductance(boreM, lengthM, meanPa, gas, 'counted') * (upstreamPa - downstreamPa);
    return Math.min(laminarPaM3PerS, uncheckedNozzleThroughput(areaM2, upstreamPa, downstreamPa, gas));
  };
}
