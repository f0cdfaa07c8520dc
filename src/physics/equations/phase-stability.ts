import type { Mixture } from './mixture.ts';
import { phaseDensity } from './phase-density.ts';
import { phaseState } from './phase-state.ts';

/** Share of one component in the trial liquids: nearly pure. */
const TRIAL = 0.98;
const ITERATIONS = 50;
/** A change of ln of the trial's fractions below which it stands. */
const STEP = 1e-7;
/** A trial as near as this to the mixture's own fractions has become it. */
const NEAR = 0.01;
/** How far a trial must lie below the tangent plane: rounding, no more. */
const BELOW = 1e-6;

/**
 * Whether no other liquid lies below a mixture's tangent plane: whether it stays one instead of parting in two.
 *
 * For blends of unlike fluids in the cold, whose equations may have a bubble point that is no equilibrium.
 *
 * @param temperatureK temperature [K]
 * @param pressurePa pressure [Pa], absolute
 * @param lnFugacity ln of each component's fugacity in Pa in the mixture
 * @returns true where every trial liquid, each rich in one component, ends above the plane or in the mixture itself
 *
 * Source: Michelsen's tangent plane criterion, `michelsen-1982`. Accuracy: trials are successive substitutions from a few
 * starts; a very narrow split could be missed.
 */
export function isStable(
  mixture: Mixture,
  temperatureK: number,
  pressurePa: number,
  lnFugacity: Float64Array,
): boolean {
  const { components, moleFractions } = mixture;
  if (components.length === 1) return true;
  return components.every((_, rich) => {
    const rest = 1 - moleFractions[rich];
    const trial = moleFractions.map((x, i) => (i === rich ? TRIAL : ((1 - TRIAL) * x) / rest));
    return !liesBelow(mixture, temperatureK, pressurePa, lnFugacity, Float64Array.from(trial));
  });
}

function liesBelow(
  mixture: Mixture,
  temperatureK: number,
  pressurePa: number,
  lnFugacity: Float64Array,
  trial: Float64Array,
): boolean {
  const { moleFractions } = mixture;
  let total = 0;
  for (let iteration = 0; iteration < ITERATIONS; iteration += 1) {
    const densityMolPerM3 = phaseDensity(mixture, 'liquid', temperatureK, pressurePa, trial);
    const here = phaseState(mixture, temperatureK, densityMolPerM3, trial).lnFugacity;
    const amounts = trial.map((w, i) => w * Math.exp(lnFugacity[i] - here[i]));
    total = amounts.reduce((sum, amount) => sum + amount, 0);
    if (!(total > 0)) return false;
    let change = 0;
    let apart = 0;
    for (let i = 0; i < trial.length; i += 1) {
      const next = amounts[i] / total;
      change = Math.max(change, Math.abs(Math.log(next / trial[i])));
      apart = Math.max(apart, Math.abs(next - moleFractions[i]));
      trial[i] = next;
    }
    if (apart < NEAR) return false;
    if (change < STEP) break;
  }
  return Math.log(total) > BELOW;
}
