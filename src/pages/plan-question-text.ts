import type { TestPlan } from '../facts/plan/test-plan.ts';
import { type UnitSystem, volumeText, yearlyLossText } from '../units/display.ts';

/**
 * What a plan answers, as a question.
 *
 * @param lossKgPerYear the leak that was asked for; undefined where lengths were
 */
export function planQuestionText(
  { volumeL, refrigerant }: TestPlan,
  lossKgPerYear: number | undefined,
  units: UnitSystem,
): string {
  const circuit = `(${volumeText(volumeL, units)}, ${refrigerant})`;
  return lossKgPerYear === undefined
    ? `How small a leak does a test see? ${circuit}`
    : `How long must a test be to see a leak of ${yearlyLossText(lossKgPerYear, units)} a year? ${circuit}`;
}
