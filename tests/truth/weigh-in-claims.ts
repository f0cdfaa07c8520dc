import { type Claim, type ClaimCase, claim } from './claim.ts';
import type { WeighInTrial } from './weigh-in-trial.ts';

const grams = (kg: number | undefined) => (kg === undefined ? '–' : `${(1000 * kg).toFixed(1)} g`);

/** What the series of a scale claims, alone and with the figure that was written down, beside their goals. */
export function weighInClaims(results: readonly WeighInTrial[]): Claim[] {
  const undisturbed = results.filter(({ plan }) => plan.kind === 'undisturbed');
  const ofKind = (kind: string) => results.filter(({ plan }) => plan.kind === kind);
  const told = results.filter(({ facts }) => facts.scale_drop_kg !== undefined && facts.scale_problem === undefined);
  return [
    claim('mass by the series of the scale alone within one step', results.map(seriesCase)),
    claim('… nothing disturbed the scale', undisturbed.map(seriesCase), { least: 0.98 }),
    ...['re-zero', 'bump', 'drift', 'hose', 'cylinder-change'].map((kind) =>
      claim(`… ${kind} alone`, ofKind(kind).map(seriesCase)),
    ),
    claim('mass by series and written figure within one step', results.map(bothCase), { least: 0.98 }),
    claim('interval of the series holds the truth, nothing disturbed', undisturbed.filter(isTold).map(coverCase), {
      least: 0.93,
    }),
    claim('… all', told.map(coverCase)),
  ];
}

function isTold({ facts }: WeighInTrial): boolean {
  return facts.scale_drop_kg !== undefined && facts.scale_problem === undefined;
}

function massCase(trial: WeighInTrial, kg: number | undefined): ClaimCase {
  const { plan, facts } = trial;
  const offKg = kg === undefined ? Number.POSITIVE_INFINITY : Math.abs(kg - plan.massKg);
  const value = offKg <= plan.stepKg + 1e-9;
  const says = `true ${grams(plan.massKg)}, found ${grams(kg)} (${facts.scale_problem ?? 'told'}), ${plan.kind}, step ${grams(plan.stepKg)}, every ${plan.intervalS} s`;
  return { plan, value, badness: value ? 0 : Math.min(offKg, 100), says };
}

function seriesCase(trial: WeighInTrial): ClaimCase {
  return massCase(trial, trial.facts.scale_problem === undefined ? trial.facts.scale_drop_kg : undefined);
}

function bothCase(trial: WeighInTrial): ClaimCase {
  return massCase(trial, trial.drawnKg);
}

function coverCase(trial: WeighInTrial): ClaimCase {
  const { plan, facts } = trial;
  const { scale_drop_low_kg: low = 0, scale_drop_high_kg: high = 0 } = facts;
  const outsideKg = Math.max(low - plan.massKg, plan.massKg - high);
  return { ...massCase(trial, facts.scale_drop_kg), value: outsideKg <= 0, badness: outsideKg };
}
