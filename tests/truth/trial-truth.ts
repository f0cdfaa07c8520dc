import type { RiseParts } from '../../src/simulate/rise-shape.ts';
import type { Truth } from '../../src/simulate/truth.ts';
import type { ShapeTruth } from './shape-truth.ts';

type Same = 'isolation_start_s' | 'isolation_end_s' | 'pulls' | 'leak_pa_per_s' | 'hold_s' | 'gauge_gain_ratio';

/** What was true of a trial; all but pulls, hold and gain absent where it was never isolated. */
export interface TrialTruth extends Pick<Truth, Same> {
  /** The hold by what the gauge would have shown without noise: its gain moves the moment at which the target is met [s]. */
  readonly shown_hold_s: number;
  readonly rise?: RiseParts;
  readonly shape?: ShapeTruth;
  /** Where the rise would level without leak and outgassing; absent where standing water is left. */
  readonly plateau_pa?: number | undefined;
}
