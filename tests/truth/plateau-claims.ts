import { type Claim, type ClaimCase, claim } from './claim.ts';
import type { TrialResult } from './trial-result.ts';

/** Whether the plateau's interval holds where a rise by wall water alone would level: modelled, new, and without standing water. */
export function plateauClaims(results: readonly TrialResult[]): Claim[] {
  const wet = results.filter(
    ({ plan, truth }) =>
      plan.kind === 'wet' &&
      !plan.used &&
      plan.unmodelled === undefined &&
      truth.plateau_pa !== undefined &&
      truth.shape?.shape === 'moisture',
  );
  const stated = wet.filter(({ facts }) => facts.plateau_low_pa !== undefined && facts.plateau_high_pa !== undefined);
  return [
    claim(
      'plateau interval stated, wall water only',
      wet.map((one) => ({ ...plateauCase(one), value: stated.includes(one), badness: 0 })),
    ),
    claim('plateau interval holds the truth', stated.map(plateauCase), { least: 0.93, most: 0.97 }),
  ];
}

function plateauCase({ plan, facts, truth }: TrialResult): ClaimCase {
  const low = facts.plateau_low_pa ?? Number.NaN;
  const high = facts.plateau_high_pa ?? Number.NaN;
  const plateau = truth.plateau_pa as number;
  const value = plateau >= low && plateau <= high;
  const says = `true ${plateau.toFixed(1)} Pa, gain ${plan.gauge.gainRatio.toFixed(3)}, found ${facts.plateau_pa?.toFixed(1) ?? '–'} (${low.toFixed(1)} to ${high.toFixed(1)}), ${facts.rise_model ?? 'no model'}`;
  return { plan, value, badness: value ? 0 : Math.max(low - plateau, plateau - high) / plateau, says };
}
