import type { NeededLength, PlanAnswer, PlannedClimb } from '../facts/plan/plan-answer.ts';
import { leastLengthS, mostLengthS } from '../facts/plan/shortest-length.ts';
import type { TestPlan } from '../facts/plan/test-plan.ts';
import type { LossBand } from '../physics/loss-in-operation.ts';
import {
  durationText,
  pressureChangeText,
  gaugePressureText,
  riseRateText,
  type UnitSystem,
  vacuumText,
  withoutUnit,
  yearlyLossText,
} from '../units/display.ts';
import { rangeText } from '../units/range-text.ts';

/** A table of a plan's answer, ready to be read. */
export interface PlanTable {
  readonly title: string;
  readonly heads: readonly string[];
  /** The first cell of a row is its head. */
  readonly rows: readonly (readonly string[])[];
  /** Of a table with two figures by length, what each is of. */
  readonly halves?: readonly [string, string];
}

/** The one length that was asked about [s]; undefined where there are more, or none. */
export function soleLength({ pressureRows, riseRows }: PlanAnswer): number | undefined {
  const [rows] = [pressureRows, riseRows].filter(({ length }) => length > 0);
  return rows?.length === 1 ? rows[0]?.durationS : undefined;
}

/** The tables of an answer: how long a test must be for a leak that was asked for, then what tests of each length see. */
export function planTables(
  plan: TestPlan,
  answer: PlanAnswer,
  units: UnitSystem,
  lossKgPerYear?: number,
): readonly PlanTable[] {
  const { pressureRows, riseRows, needed } = answer;
  const tests = testNames(plan, units);
  const rate = units === 'si' ? 'Pa/min' : 'µm/min';
  const tables: PlanTable[] = [];
  if (needed !== undefined) {
    const [pressure, rise] = [pressureRows[0], riseRows[0]];
    const lengths: [test: string, length: NeededLength | undefined, sole: LossBand | undefined][] = [
      [tests.pressure, needed.pressureTest, pressure],
      [`${tests.rise}: that it shows at all`, needed.riseShown, rise?.shown],
      [`${tests.rise}: that it is told for a leak`, needed.riseTold, rise?.told],
    ];
    const lengthS = lossKgPerYear === undefined ? undefined : soleLength(answer);
    tables.push({
      title: 'Length of test that sees it',
      heads: [
        'test',
        'at best',
        'whatever the opening',
        ...(lengthS === undefined ? [] : [`seen in ${durationText(lengthS)}`]),
      ],
      rows: lengths.flatMap(([test, length, sole]) => {
        if (length === undefined) return [];
        const seen = lengthS === undefined ? [] : [seenText(sole, lossKgPerYear)];
        return [[test, lengthText(length.atBestS), lengthText(length.atWorstS), ...seen]];
      }),
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
      halves: ['a climb that shows at all', 'a climb told for a leak'],
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
export function narrowTables(table: PlanTable): PlanTable[] {
  const { title, heads, rows, halves } = table;
  if (halves === undefined) return [table];
  return [
    [0, 1, 2],
    [0, 3, 4],
  ].map((kept, half) => ({
    title: `${title}: ${halves[half]}`,
    heads: kept.map((index) => heads[index]),
    rows: rows.map((row) => kept.map((index) => row[index])),
  }));
}

/** What the planned tests are called. */
export function testNames({ pressureTest, riseTest, atmospherePa }: TestPlan, units: UnitSystem) {
  const test = pressureTest && gaugePressureText(pressureTest.testPa, atmospherePa, units);
  return {
    pressure: test === undefined ? '' : `Pressure test, nitrogen at ${test}`,
    rise: riseTest === undefined ? '' : `Rise test from ${vacuumText(riseTest.fromPa, units)}`,
  };
}

/**
 * A band of losses as a range.
 *
 * @example bandText({ lowKgPerYear: 0.1, highKgPerYear: 0.9 }, 'si') // '100 to 900 g'
 */
export function bandText({ lowKgPerYear, highKgPerYear }: LossBand, units: UnitSystem): string {
  return rangeText(yearlyLossText(lowKgPerYear, units), yearlyLossText(highKgPerYear, units));
}

/** Whether the one length that was asked about sees the leak that was. */
function seenText(band: LossBand | undefined, lossKgPerYear = 0): string {
  if (band === undefined || band.lowKgPerYear > lossKgPerYear) return 'no';
  return band.highKgPerYear > lossKgPerYear ? 'at best' : 'yes';
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
