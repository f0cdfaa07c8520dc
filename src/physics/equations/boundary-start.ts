import type { Mixture } from './mixture.ts';
import { phaseDensity } from './phase-density.ts';
import { phaseState } from './phase-state.ts';

/** Which boundary: of the boiling liquid, or of the condensing vapour; that phase has the mixture's composition. */
export type BoundaryKind = 'bubble' | 'dew';

/** What is given at a point of the boundary: its temperature [K] or its pressure [Pa]. */
export type BoundaryGoal = 'temperatureK' | 'pressurePa';

/** Share of the critical temperature where a start succeeds. */
const EASY = 0.8;
/** A guess of every acentric factor: what is found at last does not depend on it. */
const ACENTRIC = 0.3;
/** How often a guess is improved where the rough one did not lead to a point. */
const SUBSTITUTIONS = 12;

/** Temperatures [K] to start a boundary from: the goal's own, roughly, unless that is near the critical region; then where it is easy. */
export function startTemperatures(
  mixture: Mixture,
  kind: BoundaryKind,
  goal: BoundaryGoal,
  value: number,
): readonly number[] {
  const easyK = EASY * meanCriticalK(mixture);
  if (goal === 'temperatureK') return [Math.min(easyK, value), easyK];
  let goalK = easyK;
  while (wilson(mixture, kind, goalK).pressurePa > value) goalK *= 0.97;
  return [goalK, easyK];
}

/**
 * A first guess of a point of the boundary.
 *
 * @param temperatureK temperature [K], well below the critical region
 * @param improved true to improve the rough guess by successive substitution, for blends of unlike fluids
 * @returns ln of the density [mol/m³] of the parent phase and of the incipient one, ln of the incipient one's mole fractions,
 *   ln T; NaN among them where there is no guess
 *
 * Source: Wilson's rule for pressure and composition; textbook forms, used for a start alone.
 */
export function boundaryStart(
  mixture: Mixture,
  kind: BoundaryKind,
  temperatureK: number,
  improved: boolean,
): Float64Array {
  const { moleFractions } = mixture;
  const [parentPhase, incipientPhase] =
    kind === 'bubble' ? (['liquid', 'vapour'] as const) : (['vapour', 'liquid'] as const);
  const rough = wilson(mixture, kind, temperatureK);
  const fractions = Float64Array.from(rough.fractions);
  let { pressurePa } = rough;
  let densities: number[] = [];
  for (let substitution = 0; substitution <= (improved ? SUBSTITUTIONS : 0); substitution += 1) {
    if (substitution > 0) {
      const parent = phaseState(mixture, temperatureK, densities[0], moleFractions).lnFugacity;
      const incipient = phaseState(mixture, temperatureK, densities[1], fractions).lnFugacity;
      const amounts = fractions.map((w, i) => w * Math.exp(parent[i] - incipient[i]));
      const total = sum([...amounts]);
      for (let i = 0; i < fractions.length; i += 1) fractions[i] = amounts[i] / total;
      pressurePa *= kind === 'bubble' ? total : 1 / total;
    }
    densities = [
      phaseDensity(mixture, parentPhase, temperatureK, pressurePa, moleFractions),
      phaseDensity(mixture, incipientPhase, temperatureK, pressurePa, fractions),
    ];
  }
  return Float64Array.from([...densities, ...fractions, temperatureK], Math.log);
}

/** Pressure and composition of the incipient phase by Wilson's rule. */
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
