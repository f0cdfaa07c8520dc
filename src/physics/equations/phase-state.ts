import { type Mixture, reducingPoint } from './mixture.ts';
import { residualEnergy } from './residual-energy.ts';

/** A phase at given temperature, density and composition. */
export interface PhaseState {
  readonly pressurePa: number;
  /** ∂p/∂ρ at constant temperature [Pa m³/mol]; not above 0 where the phase cannot exist. */
  readonly stiffnessPaM3PerMol: number;
  /** ln of each component's fugacity in Pa. */
  readonly lnFugacity: Float64Array;
}

/**
 * Pressure and fugacities of a phase.
 *
 * @param temperatureK temperature [K]
 * @param densityMolPerM3 density [mol/m³], above 0
 * @param moleFractions of this phase, one for each component, above 0
 *
 * Source: `kunz-wagner-2012`, multi-fluid model and fugacities. Accuracy: of the properties that come of it, see
 * `saturationAtTemperature`.
 */
export function phaseState(
  mixture: Mixture,
  temperatureK: number,
  densityMolPerM3: number,
  moleFractions: ArrayLike<number>,
): PhaseState {
  const { components, pairs, gasConstantJPerMolK } = mixture;
  const point = reducingPoint(mixture, moleFractions);
  const delta = densityMolPerM3 * point.reducingM3PerMol;
  const tau = point.reducingK / temperatureK;
  const own = new Float64Array(components.length);
  let alpha = 0;
  let alphaD = 0;
  let alphaDD = 0;
  let alphaT = 0;
  for (let i = 0; i < components.length; i += 1) {
    const x = moleFractions[i];
    const energy = residualEnergy(components[i], delta, tau);
    own[i] += energy.alpha;
    alpha += x * energy.alpha;
    alphaD += x * energy.alphaD;
    alphaDD += x * energy.alphaDD;
    alphaT += x * energy.alphaT;
  }
  let mean = alpha;
  for (const { first, second, factor, departure } of pairs) {
    if (factor === 0) continue;
    const x = moleFractions[first];
    const y = moleFractions[second];
    const energy = residualEnergy(departure, delta, tau);
    const weight = factor * x * y;
    own[first] += factor * y * energy.alpha;
    own[second] += factor * x * energy.alpha;
    alpha += weight * energy.alpha;
    alphaD += weight * energy.alphaD;
    alphaDD += weight * energy.alphaDD;
    alphaT += weight * energy.alphaT;
    mean += 2 * weight * energy.alpha;
  }
  const energyJPerMol = gasConstantJPerMolK * temperatureK;
  const lnFugacity = own;
  for (let i = 0; i < components.length; i += 1) {
    lnFugacity[i] =
      Math.log(moleFractions[i] * densityMolPerM3 * energyJPerMol) +
      alpha +
      alphaD * (1 + point.volumeShares[i]) +
      alphaT * point.temperatureShares[i] +
      own[i] -
      mean;
  }
  return {
    pressurePa: densityMolPerM3 * energyJPerMol * (1 + alphaD),
    stiffnessPaM3PerMol: energyJPerMol * (1 + 2 * alphaD + alphaDD),
    lnFugacity,
  };
}
