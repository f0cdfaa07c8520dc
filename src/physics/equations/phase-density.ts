import type { Mixture } from './mixture.ts';
import { phaseState } from './phase-state.ts';

/** A density that was found [mol/m³], or how far the pressure still was from the one asked for, as a ratio less 1. */
export type PhaseDensity =
  | { readonly converged: true; readonly densityMolPerM3: number }
  | { readonly converged: false; readonly residual: number };

/** A relative step of density below which the solution stands. */
const STEP = 1e-11;
const ITERATIONS = 60;
/** The longest relative step, so that a liquid stays one. */
const LONGEST_STEP = { liquid: 0.1, vapour: 10 };

/**
 * Density of a phase at a temperature and pressure, by Newton's method from a first guess.
 *
 * A vapour is to start from the ideal gas: while it bends as gases do, the steps then come from below and cannot jump into
 * the liquid. A liquid is to start near its density.
 *
 * @param temperatureK temperature [K]
 * @param pressurePa pressure [Pa], absolute, above 0
 * @param moleFractions of the phase
 * @param guessMolPerM3 first guess [mol/m³]
 * @returns not converged where this phase cannot exist there
 */
export function phaseDensity(
  mixture: Mixture,
  phase: 'liquid' | 'vapour',
  temperatureK: number,
  pressurePa: number,
  moleFractions: ArrayLike<number>,
  guessMolPerM3: number,
): PhaseDensity {
  let density = guessMolPerM3;
  let residual = Number.NaN;
  for (let iteration = 0; iteration < ITERATIONS; iteration += 1) {
    const state = phaseState(mixture, temperatureK, density, moleFractions);
    residual = state.pressurePa / pressurePa - 1;
    if (!(state.stiffnessPaM3PerMol > 0)) {
      if (phase === 'vapour') break;
      density *= 1 + LONGEST_STEP.liquid;
      continue;
    }
    const step = (pressurePa - state.pressurePa) / (state.stiffnessPaM3PerMol * density);
    density *= 1 + Math.max(-LONGEST_STEP.liquid, Math.min(LONGEST_STEP[phase], step));
    if (Math.abs(step) < STEP) return { converged: true, densityMolPerM3: density };
  }
  return { converged: false, residual };
}
