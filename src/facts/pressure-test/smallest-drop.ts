import { mixtureQuantile } from '../../numerics/mixture-quantile.ts';
import type { NormalPart } from '../../numerics/normal-distribution.ts';

/** Share of a distribution below the drop that is sure. */
export const sureShare = 0.001;
/**
 * A drop that lifts the sure end above zero with this chance is found four times of five: for what is modelled 0.8 would do,
 * the rest is for what is not. Set on simulated tests (tests/truth).
 */
const foundShare = 0.83;

/**
 * The smallest drop that would be told for one, four times of five: without a drop the sure end lies so far below the likely
 * one, and a drop must lift it above zero though chance may be against it.
 *
 * @param drop what is known of a drop, in any unit
 */
export function smallestDrop(drop: readonly NormalPart[]): number {
  return mixtureQuantile(drop, foundShare) - mixtureQuantile(drop, sureShare);
}
