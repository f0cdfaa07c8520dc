import type { Mixture } from './mixture.ts';
import { phaseState } from './phase-state.ts';

/** A relative step of density below which the solution stands. */
const STEP = 1e-11;
const ITERATIONS = 100;
/** The longest relative step: between liquid and vapour the equations have false loops, and a jump would end in one. */
const LONGEST_STEP = { liquid: 0.1, vapour: 0.3 };
/** Rackett's compressibility, for the guess of a liquid alone. */
const RACKETT = 0.27;

/**
 * Density of a phase at a temperature and pressure, by Newton's method.
 *
 * A vapour starts from the ideal gas: while it bends as gases do, the steps come from below and cannot jump into the
 * liquid. A liquid starts from Rackett's rule.
 *
 * @param temperatureK temperature [K]
 * @param pressurePa pressure [Pa], absolute, above 0
 * @param moleFractions of the phase
 * @returns density [mol/m³]; NaN where this phase cannot exist there
 */
export function phaseDensity(
  mixture: Mixture,
  phase: 'liquid' | 'vapour',
  temperatureK: number,
  pressurePa: number,
  moleFractions: ArrayLike<number>,
): number {
  let densityMolPerM3 =
    phase === 'liquid'
      ? liquidGuess(mixture, temperatureK, moleFractions)
      : pressurePa / (mixture.gasConstantJPerMolK * temperatureK);
  const longest = LONGEST_STEP[phase];
  for (let iteration = 0; iteration < ITERATIONS; iteration += 1) {
    const state = phaseState(mixture, temperatureK, densityMolPerM3, moleFractions);
    if (!(state.stiffnessPaM3PerMol > 0)) {
      if (phase === 'vapour') return Number.NaN;
      densityMolPerM3 *= 1 + longest;
      continue;
    }
    const step = (pressurePa - state.pressurePa) / (state.stiffnessPaM3PerMol * densityMolPerM3);
    densityMolPerM3 *= 1 + Math.max(-longest, Math.min(longest, step));
    if (Math.abs(step) < STEP) return densityMolPerM3;
  }
  return Number.NaN;
}

function liquidGuess({ components }: Mixture, temperatureK: number, moleFractions: ArrayLike<number>): number {
  let criticalK = 0;
  let reducingM3PerMol = 0;
  for (let i = 0; i < components.length; i += 1) {
    criticalK += moleFractions[i] * components[i].criticalK;
    reducingM3PerMol += moleFractions[i] / components[i].reducingMolPerM3;
  }
  return RACKETT ** -(Math.max(0, 1 - temperatureK / criticalK) ** (2 / 7)) / reducingM3PerMol;
}
