import type { ClaimGoal } from '../truth/claim.ts';
import { type DrawnCallbacks, drawnCallbacks, type DrawnCourses } from './drawn-callbacks.ts';

/** How fleets are drawn, but for the seed. */
export type Plan = Omit<DrawnCallbacks, 'fleet'> & { readonly fleet: Omit<DrawnCallbacks['fleet'], 'seed'> };

export const crew = { technicians: 12, crewSize: 3 } as const;
export const ratios = { evacuation: 3, rise: 2 } as const;
/** Callbacks a year where a finding doubles or triples them. */
export const hazard = 0.12;
export const coverage: ClaimGoal = { least: 0.93, most: 0.97 };

/** So many fleets of a plan. */
export function drawn(
  seed: number,
  runs: number,
  plan: Plan,
): { readonly number: number; readonly fleet: DrawnCourses }[] {
  return Array.from({ length: runs }, (_, number) => ({
    number,
    fleet: drawnCallbacks({ ...plan, fleet: { ...plan.fleet, seed: 100_000 * seed + number } }),
  }));
}
