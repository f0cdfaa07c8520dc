import type { System } from '../system.ts';
import type { Truth } from '../truth.ts';
import type { JobScale } from './job-scale.ts';

/** What was true of a charge. `scaleKg`: what the log shows of the scale [kg], NaN where it does not. */
export function chargeTruth(
  { plan, upsets }: JobScale,
  { lines }: System,
  scaleKg: Float64Array | undefined,
): Partial<Truth> {
  const logged = scaleKg?.some((kg) => !Number.isNaN(kg)) ?? false;
  return {
    charge_target_kg: plan.targetKg,
    charged_kg: plan.chargedKg,
    charge_deviation_kg: plan.deviationKg,
    charge_slip: plan.slip,
    charge_slip_kg: plan.slipKg,
    drawn_kg: plan.drawnKg,
    line_length_error_m: lines.reduce((sum, { lengthM, trueLengthM = lengthM }) => sum + lengthM - trueLengthM, 0),
    scale_upset: upsets.join('+') || undefined,
    scale_logged: plan.drawnKg > 0 ? logged : undefined,
    hose_residual_kg: plan.residualKg,
  };
}
