import type { NeededLength, PlanAnswer, PlannedClimb } from '../facts/plan/plan-answer.ts';
import { leastLengthS } from '../facts/plan/shortest-length.ts';
import { plannedVolume } from '../facts/plan/planned-volume.ts';
import type { TestPlan } from '../facts/plan/test-plan.ts';
import type { LossBand } from '../physics/loss-in-operation.ts';

/**
 * A plan's answer as other programs rely on it; null for a length that seven days do not reach, or for too few readings. A
 * length that is the shortest that is planned has a flag: less may do.
 */
export function planAnswerJson(plan: TestPlan, answer: PlanAnswer, lossKgPerYear: number | undefined): object {
  const { volumeL, refrigerant, atmospherePa, pressureTest, riseTest } = plan;
  const { pressureRows, riseRows, needed } = answer;
  const { lowL = volumeL, highL = volumeL, basis = 'tested' } = plannedVolume(plan) ?? {};
  return {
    volume_l: volumeL,
    volume_low_l: lowL,
    volume_high_l: highL,
    volume_basis: basis,
    refrigerant,
    atmosphere_pa: atmospherePa,
    ...(pressureTest && {
      pressure_test: {
        test_pa: pressureTest.testPa,
        gauge_step_pa: pressureTest.stepPa,
        interval_s: pressureTest.intervalS,
        temperature_k: pressureTest.temperatureK,
        temperature_uncertainty_k: pressureTest.temperatureUncertaintyK,
        lengths: pressureRows.map((row) => ({
          duration_s: row.durationS,
          smallest_drop_seen_pa: row.dropPa,
          ...bandJson('smallest_test_loss', row),
          ...seesJson('sees_leak', row, lossKgPerYear),
        })),
        ...(needed?.pressureTest && neededJson('needed', needed.pressureTest)),
      },
    }),
    ...(riseTest && {
      rise_test: {
        isolation_pa: riseTest.fromPa,
        gauge_step_pa: riseTest.stepPa,
        noise_ratio: riseTest.noiseRatio,
        interval_s: riseTest.intervalS,
        pumped_s: riseTest.pumpedS,
        lengths: riseRows.map(({ durationS, shown, told }) => ({
          duration_s: durationS,
          ...climbJson('smallest_rise_seen', 'smallest_rise_loss', shown),
          ...climbJson('smallest_leak_seen', 'smallest_loss', told),
          ...seesJson('shows_leak', shown, lossKgPerYear),
          ...seesJson('tells_leak', told, lossKgPerYear),
        })),
        ...(needed?.riseShown && neededJson('needed_to_show', needed.riseShown)),
        ...(needed?.riseTold && neededJson('needed_to_tell', needed.riseTold)),
      },
    }),
    ...(lossKgPerYear !== undefined && { leak_kg_per_year: lossKgPerYear }),
  };
}

function bandJson(name: string, band: LossBand | undefined): Record<string, number | null> {
  return {
    [`${name}_low_kg_per_year`]: band?.lowKgPerYear ?? null,
    [`${name}_high_kg_per_year`]: band?.highKgPerYear ?? null,
  };
}

function climbJson(name: string, loss: string, climb: PlannedClimb | undefined): Record<string, number | null> {
  return { [`${name}_pa_per_s`]: climb?.paPerS ?? null, ...bandJson(loss, climb) };
}

/** Whether a test of a length sees the leak that was asked for; nothing where none was. */
function seesJson(
  name: string,
  band: LossBand | undefined,
  lossKgPerYear: number | undefined,
): Record<string, boolean> {
  if (lossKgPerYear === undefined) return {};
  return {
    [`${name}_at_best`]: band !== undefined && band.lowKgPerYear <= lossKgPerYear,
    [`${name}_at_worst`]: band !== undefined && band.highKgPerYear <= lossKgPerYear,
  };
}

function neededJson(name: string, { atBestS, atWorstS }: NeededLength): Record<string, number | boolean | null> {
  return {
    [`${name}_at_best_s`]: atBestS ?? null,
    [`${name}_at_best_or_less`]: atBestS === leastLengthS,
    [`${name}_at_worst_s`]: atWorstS ?? null,
    [`${name}_at_worst_or_less`]: atWorstS === leastLengthS,
  };
}
