import type { NeededLength, PlanAnswer, PlannedClimb } from '../facts/plan/plan-answer.ts';
import { leastLengthS, mostLengthS } from '../facts/plan/shortest-length.ts';
import type { TestPlan } from '../facts/plan/test-plan.ts';
import type { LossBand } from '../physics/loss-in-operation.ts';
import {
  durationText,
  pressureChangeText,
  psigOrAbsoluteBarText,
  riseRateText,
  type UnitSystem,
  vacuumText,
  withoutUnit,
  yearlyLossText,
} from '../units/display.ts';

/** A table of a plan's answer, ready to be read. */
export interface PlanTable {
  readonly title: string;
  readonly heads: readonly string[];
  /** The first cell of a row is its head. */
  readonly rows: readonly (readonly string[])[];
}

/** The tables of an answer: how long a test must be for a leak that was asked for, then what tests of each length see. */
export function planTables(plan: TestPlan, answer: PlanAnswer, units: UnitSystem): readonly PlanTable[] {
  const { pressureRows, riseRows, needed } = answer;
  const tests = testNames(plan, units);
  const rate = units === 'si' ? 'Pa/min' : 'µm/min';
  const tables: PlanTable[] = [];
  if (needed !== undefined) {
    const lengths: [test: string, length: NeededLength | undefined][] = [
      [tests.pressure, needed.pressureTest],
      [`${tests.rise}: that it shows at all`, needed.riseShown],
      [`${tests.rise}: that it is told for a leak`, needed.riseTold],
    ];
    tables.push({
      title: 'Length of test that sees it',
      heads: ['test', 'at best', 'whatever the opening'],
      rows: lengths.flatMap(([test, length]) =>
        length === undefined ? [] : [[test, lengthText(length.atBestS), lengthText(length.atWorstS)]],
      ),
    });
  }
  if (pressureRows.length > 0)
    tables.push({
      title: tests.pressure,
      heads: ['length', 'drop', 'loss in a year'],
      rows: pressureRows.map((row) => [
        durationText(row.durationS),
        pressureChangeText(row.dropPa, units),
        bandText(row, units),
      ]),
    });
  if (riseRows.length > 0)
    tables.push({
      title: tests.rise,
      heads: ['length', `climb that shows, ${rate}`, 'loss in a year', `told for a leak, ${rate}`, 'loss in a year'],
      rows: riseRows.map(({ durationS, shown, told }) => [
        durationText(durationS),
        ...climbCells(shown, units),
        ...climbCells(told, units),
      ]),
    });
  return tables;
}

/** A table with two figures by length as two tables with one, for where there is little room; another as it is. */
export function narrowTables({ title, heads, rows }: PlanTable): PlanTable[] {
  if (heads.length < 5) return [{ title, heads, rows }];
  return [
    [0, 1, 2],
    [0, 3, 4],
  ].map((kept) => ({
    title,
    heads: kept.map((index) => heads[index]),
    rows: rows.map((row) => kept.map((index) => row[index])),
  }));
}

/** What the planned tests are called. */
export function testNames({ pressureTest, riseTest, atmospherePa }: TestPlan, units: UnitSystem) {
  const test = pressureTest && psigOrAbsoluteBarText(pressureTest.testPa, atmospherePa, units);
  return {
    pressure: test === undefined ? '' : `Pressure test, nitrogen at ${test}${units === 'si' ? ' absolute' : ''}`,
    rise: riseTest === undefined ? '' : `Rise test from ${vacuumText(riseTest.fromPa, units)}`,
  };
}

/**
 * A band of losses, its unit said once where both ends have the same.
 *
 * @example bandText({ lowKgPerYear: 0.1, highKgPerYear: 0.9 }, 'si') // '100 to 900 g'
 */
export function bandText({ lowKgPerYear, highKgPerYear }: LossBand, units: UnitSystem): string {
  const [low, high] = [lowKgPerYear, highKgPerYear].map((kg) => yearlyLossText(kg, units));
  if (low === high) return low;
  const unit = (text: string) => text.slice(withoutUnit(text).length);
  return `${unit(low) === unit(high) && !low.startsWith('under') ? withoutUnit(low) : low} to ${high}`;
}

/** A length that was found, and what it means at the ends of what is planned. */
function lengthText(durationS: number | undefined): string {
  if (durationS === undefined) return `not within ${mostLengthS / 86_400} days`;
  return durationS === leastLengthS ? `${durationText(durationS)} or less` : durationText(durationS);
}

function climbCells(climb: PlannedClimb | undefined, units: UnitSystem): [string, string] {
  if (climb === undefined) return ['too few readings', ''];
  return [withoutUnit(riseRateText(climb.paPerS, units)), bandText(climb, units)];
}
