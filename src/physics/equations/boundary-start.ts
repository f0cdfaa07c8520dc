import type { Mixture } from './mixture.ts';
import { phaseDensity } from './phase-density.ts';

/** Which boundary: of the boiling liquid, or of the condensing vapour; that phase has the mixture's composition. */
export type BoundaryKind = 'bubble' | 'dew';

/** What is given at a point of the boundary: its temperature [K] or its pressure [Pa]. */
export type BoundaryGoal = 'temperatureK' | 'pressurePa';

/** Shares of the critical temperature where a start succeeds, warm first. */
const EASY = [0.8, 0.65];
/** A guess of every acentric factor: what is found at last does not depend on it. */
const ACENTRIC = 0.3;
/** Rackett's compressibility, likewise. */
const RACKETT = 0.27;

/** Temperatures [K] to start a boundary from: the goal's own, roughly, unless that is near the critical region; then where it is easy. */
export function startTemperatures(
  mixture: Mixture,
  kind: BoundaryKind,
  goal: BoundaryGoal,
  value: number,
): readonly number[] {
  const [warmK, coldK] = EASY.map((share) => share * meanCriticalK(mixture));
  if (goal === 'temperatureK') return [Math.min(warmK, value), warmK, coldK];
  let goalK = warmK;
  while (wilson(mixture, kind, goalK).pressurePa > value) goalK *= 0.97;
  return [goalK, warmK, coldK];
}

/**
 * A first guess of a point of the boundary.
 *
 * @param temperatureK temperature [K], well below the critical region
 * @returns ln of the density [mol/m³] of the whole phase and of the new one, ln of the new one's mole fractions, ln T; NaN
 *   among them where there is no guess
 *
 * Source: Wilson's rule for pressure and composition, Rackett's for the liquid; textbook forms, used for a start alone.
 */
export function boundaryStart(mixture: Mixture, kind: BoundaryKind, temperatureK: number): Float64Array {
  const { components, moleFractions, gasConstantJPerMolK } = mixture;
  const { pressurePa, fractions } = wilson(mixture, kind, temperatureK);
  const [liquid, vapour] = kind === 'bubble' ? [moleFractions, fractions] : [fractions, moleFractions];
  const reducingM3PerMol = sum(components.map((fluid, i) => liquid[i] / fluid.reducingMolPerM3));
  const compression = (1 - temperatureK / meanCriticalK(mixture)) ** (2 / 7);
  const densities = [
    phaseDensity(mixture, 'liquid', temperatureK, pressurePa, liquid, RACKETT ** -compression / reducingM3PerMol),
    phaseDensity(
      mixture,
      'vapour',
      temperatureK,
      pressurePa,
      vapour,
      pressurePa / (gasConstantJPerMolK * temperatureK),
    ),
  ].map((found) => (found.converged ? found.densityMolPerM3 : Number.NaN));
  if (kind === 'dew') densities.reverse();
  return Float64Array.from([...densities, ...fractions, temperatureK], Math.log);
}

/** Pressure and composition of the new phase by Wilson's rule. */
function wilson(
  { components, moleFractions }: Mixture,
  kind: BoundaryKind,
  temperatureK: number,
): { readonly pressurePa: number; readonly fractions: readonly number[] } {
  const volatility = components.map(
    ({ criticalPa, criticalK }) => criticalPa * Math.exp(5.373 * (1 + ACENTRIC) * (1 - criticalK / temperatureK)),
  );
  const parts = volatility.map((pa, i) => (kind === 'bubble' ? moleFractions[i] * pa : moleFractions[i] / pa));
  const total = sum(parts);
  return { pressurePa: kind === 'bubble' ? total : 1 / total, fractions: parts.map((part) => part / total) };
}

/** The mean of the components' critical temperatures: a measure, not the mixture's own. */
function meanCriticalK({ components, moleFractions }: Mixture): number {
  return sum(components.map((fluid, i) => moleFractions[i] * fluid.criticalK));
}

function sum(parts: readonly number[]): number {
  return parts.reduce((total, part) => total + part, 0);
}
