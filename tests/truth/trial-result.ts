import { vacuumFacts } from '../../src/facts/vacuum-facts.ts';
import type { Facts } from '../../src/records/tables/facts.ts';
import { runTrial } from './run-trial.ts';
import { trialMaterial } from './trial-material.ts';
import type { TrialPlan } from './trial-plan.ts';
import type { TrialTruth } from './trial-truth.ts';

/** A trial, its truth, and what was found. */
export interface TrialResult {
  readonly plan: TrialPlan;
  readonly truth: TrialTruth;
  readonly facts: Partial<Facts>;
  /** What the facts took, by the wall clock: that of the CPU is too coarse here [ms]. */
  readonly factsMs: number;
}

/** Carries a plan out and finds its facts. */
export function trialResult(plan: TrialPlan, stream: 1 | 2 = 1, moreLeakPaPerS = 0): TrialResult {
  const run = runTrial(plan, stream, moreLeakPaPerS);
  const material = trialMaterial(plan, run);
  const before = performance.now();
  const facts = vacuumFacts(material);
  const factsMs = performance.now() - before;
  return { plan, truth: run.truth, facts, factsMs };
}
