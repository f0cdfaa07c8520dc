import type { Random } from '../../numerics/random.ts';
import type { Weighing } from '../../records/tables/weighings.ts';
import type { CylinderTruth } from '../cylinder-truth.ts';
import { slippedFigureKg } from './slipped-figure.ts';

/** Share of weighings with a mistyped figure, and of those written for another cylinder: invented. */
const MISTYPED_SHARE = 0.005;
const SWAPPED_SHARE = 0.005;

/** A weighing, and what may befall it on paper. */
export interface WeighingSlipOptions {
  readonly random: Random;
  readonly weighing: Weighing;
  /** Cylinders of the same refrigerant that it may be written for by mistake. */
  readonly elsewhere: readonly string[];
  readonly scaleStepKg: number;
  /** False where the figures are copied from elsewhere, and so are right. */
  readonly mayMistype: boolean;
}

/** A weighing as it is written down, with the truth where that is another one. */
export function slippedWeighing(options: WeighingSlipOptions): { weighing: Weighing; truth?: CylinderTruth } {
  const { random, weighing, elsewhere, scaleStepKg, mayMistype } = options;
  const { cylinder_id: cylinderId, at, start_kg: startKg, end_kg: endKg } = weighing;
  const isMistyped = random.chance(MISTYPED_SHARE);
  const isSwapped = random.chance(SWAPPED_SHARE);
  if (cylinderId === undefined || at === undefined || startKg === undefined || endKg === undefined) return { weighing };
  const truth = {
    cylinder_id: cylinderId,
    at,
    weighing_id: weighing.weighing_id,
    true_start_kg: startKg,
    true_end_kg: endKg,
  };
  if (isMistyped && mayMistype) {
    const column = random.choice(['start_kg', 'end_kg'] as const);
    const trueKg = column === 'start_kg' ? startKg : endKg;
    const writtenKg = slippedFigureKg(random, trueKg, scaleStepKg < 0.01 ? 3 : 2);
    return {
      weighing: { ...weighing, [column]: writtenKg },
      truth: { ...truth, kind: 'mistyped', kg: toGram(writtenKg - trueKg) },
    };
  }
  if (isSwapped && elsewhere.length > 0) {
    const other = random.choice(elsewhere);
    return {
      weighing: { ...weighing, cylinder_id: other },
      truth: { ...truth, kind: 'swapped', kg: toGram(Math.abs(startKg - endKg)), other_cylinder_id: other },
    };
  }
  return { weighing };
}

function toGram(kg: number): number {
  return Math.round(kg * 1000) / 1000;
}
