import type { TestPlan } from '../facts/plan/test-plan.ts';
import type { PlanAnswer } from '../facts/plan/plan-answer.ts';
import { planQuestionText } from '../pages/plan-question-text.ts';
import { type AssumedSettings, planNotes } from '../pages/plan-notes.ts';
import { narrowTables, type PlanTable, planTables } from '../pages/plan-tables.ts';
import type { UnitSystem } from '../units/display.ts';
import { textTable } from './text-table.ts';
import { textWidth, wrappedText } from './wrapped-text.ts';

export interface PlanTextOptions {
  readonly units: UnitSystem;
  readonly assumed: AssumedSettings;
  /** No notes but those that no figure may stand without. */
  readonly quiet?: boolean;
  readonly lossKgPerYear?: number | undefined;
}

/** A plan's answer as text: tables, what they mean, which test to trust, what they rest on. */
export function planText(plan: TestPlan, answer: PlanAnswer, options: PlanTextOptions): string {
  const { units, assumed, quiet = false, lossKgPerYear } = options;
  const { meaning, trust, basis, cautions } = planNotes(plan, answer, assumed, units);
  const notes = quiet ? [basis, cautions] : [meaning, trust, basis, cautions];
  return [
    ...wrappedText(planQuestionText(plan, answer, lossKgPerYear, units)),
    ...planTables(plan, answer, units, lossKgPerYear).flatMap((table) => ['', table.title, tableText(table)]),
    ...notes.flatMap((paragraph) =>
      paragraph.length === 0 ? [] : ['', ...paragraph.flatMap((note) => wrappedText(note))],
    ),
  ].join('\n');
}

/** A table; where it is too wide for the terminal, in parts, and its first column in lines. */
function tableText(table: PlanTable): string {
  const full = textTable(table.heads, table.rows);
  if (widthOf(full) <= textWidth()) return full;
  return narrowTables(table)
    .map(({ heads, rows }) => {
      const whole = textTable(heads, rows);
      if (widthOf(whole) <= textWidth()) return whole;
      const figures = textTable(
        heads.slice(1),
        rows.map((row) => row.slice(1)),
      );
      const roomFor = Math.max(leastFirst, textWidth() - widthOf(figures) - 2);
      const inLines = (text: string) => wrappedText(text, ' '.repeat(textWidth() - roomFor)).map((line) => line.trim());
      return textTable(
        heads,
        rows.map(([first = '', ...cells]) => [inLines(first).join('\n'), ...cells]),
      );
    })
    .join('\n\n');
}

/** The first column is no narrower than this [characters]. */
const leastFirst = 12;

function widthOf(text: string): number {
  return Math.max(...text.split('\n').map((line) => line.length));
}
