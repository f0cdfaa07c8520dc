import type { TestPlan } from '../facts/plan/test-plan.ts';
import type { PlanAnswer } from '../facts/plan/plan-answer.ts';
import { durationText, type UnitSystem, volumeText, yearlyLossText } from '../units/display.ts';
import { soleLength } from './plan-tables.ts';

/**
 * What a plan answers, as a question.
 *
 * @param lossKgPerYear the leak that was asked for; undefined where lengths were
 */
export function planQuestionText(
  { volumeL, refrigerant, estimated }: TestPlan,
  answer: PlanAnswer,
  lossKgPerYear: number | undefined,
  units: UnitSystem,
): string {
  const circuit = `(${volumeText(volumeL, units)}${estimated === undefined ? '' : ' estimated'}, ${refrigerant})`;
  const lengthS = soleLength(answer);
  const ofLength = lengthS === undefined ? '' : ` of ${durationText(lengthS)}`;
  if (lossKgPerYear === undefined) return `How small a leak does a test${ofLength} see? ${circuit}`;
  const also = lengthS === undefined ? '' : `, and how small a leak does one${ofLength} see`;
  return `How long must a test be to see a leak of ${yearlyLossText(lossKgPerYear, units)} a year${also}? ${circuit}`;
}
