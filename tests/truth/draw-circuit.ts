import type { Random } from '../../src/numerics/random.ts';
import type { Circuit } from '../../src/simulate/evacuation.ts';
import type { TrialKind } from './trial-plan.ts';

/**
 * Draws a circuit of a kind; the ranges are those of `src/simulate/conditions.ts`, but a leak may be
 * smaller, and a damp wall less wet and sooner dry: else most wet systems would never come down to their target.
 *
 * A wet one holds water on its walls, standing water, or both; of the standing water some lies in a dead end.
 */
export function drawCircuit(random: Random, kind: TrialKind, used: boolean): Circuit {
  const volumeM3 = random.uniform(2e-3, 8e-3);
  const farShare = random.uniform(0.2, 0.35);
  const leaks = kind === 'leaking' || kind === 'mixed';
  const wet = kind === 'wet' || kind === 'mixed';
  const standing = wet && random.chance(0.4);
  const damp = wet && (!standing || random.chance(0.5));
  const deadEnd = random.chance(0.4);
  return {
    nearM3: volumeM3 * (1 - farShare),
    farM3: volumeM3 * farShare,
    couplingBoreM: random.choice([0.00475, 0.00775, 0.0111]),
    couplingLengthM: random.uniform(0.3, 2.5),
    leakPaPerS: leaks
      ? random.logUniform(0.01, 0.8)
      : kind === 'dry' && random.chance(0.25)
        ? random.logUniform(1e-5, 1e-3)
        : 0,
    outgassingPa: used ? random.logUniform(4, 40) : random.logUniform(0.2, 2.5),
    wallWaterPa: damp ? random.logUniform(150, 1500) : random.logUniform(40, 350),
    wallWaterS: random.uniform(40, 150),
    wallDryingS: damp ? random.logUniform(200, 2400) : random.uniform(80, 170),
    waterKg: standing ? random.logUniform(0.2e-3, 6e-3) : 0,
    waterM3PerS: deadEnd ? random.logUniform(5e-7, 5e-6) : random.logUniform(3e-4, 2e-3),
    temperatureK: 273.15 + random.uniform(5, 35),
    altitudeM: random.choice([0, 200, 600, 1500]),
  };
}
