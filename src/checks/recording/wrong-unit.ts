import type { Facts } from '../../records/tables/facts.ts';
import { check, type Judgement } from '../check.ts';
import { unitEvidence, unitExamples, unitMessages } from '../unit-signs.ts';

// Common practice, no source: a unit is off by far more.
const apartKg = 0.05;
const apartRatio = 0.1;
/** Pressures at which a log shows itself to be in pascals: a test of 100 to 700 psig, a gauge for microns that goes over. */
const testPa = [690_000, 5_000_000] as const;
const rangePa = [1_500, 4_100] as const;
/** A pressure at rest is that of its refrigerant within so many standard uncertainties. */
const restDeviations = 2;

/** Whether an instrument's readings are in the unit that their column says. */
export const wrongUnit = check({
  id: 'wrong-unit',
  group: 'recording',
  gear: ['gauge', 'scale'],
  revisit: 'record',
  question: 'Are the readings in the unit that their column says?',
  needs: ['recorded_columns', 'scale_readings', 'drawn_kg'],
  limits: {},
  messages: {
    ...unitMessages,
    right: 'The scale and what was written down go together.',
    'as-said': 'The unit that the column says fits {looked_at}; other columns tell nothing of theirs.',
    scale:
      'The log of the scale, {scale_drop_kg}, and what was written down, {entered_drop_kg}, differ by a unit: pounds, ounces or grams in a column of kilograms. Mend the source map and take the file in again.',
    'scale-heavy':
      'The scale shows more than any cylinder weighs: grams, ounces or pounds in a column of kilograms. Mend the source map and take the file in again.',
    pressure:
      'While the system ran no pressure is ever above that of the air by as much again: psi, bar or kilopascals in a column of pascals. Mend the source map and take the file in again.',
    differ: 'The log of the scale and what was written down differ, but by no unit.',
    'nothing-to-compare': 'There is nothing in the log that tells of its units.',
  },
  teach:
    'The unit belongs to the column, not to the person who reads it. Look at one job of which you know the figures before a year of files is taken in.',
  references: ['common-practice', 'nist-sp-811'],
  examples: [
    {
      name: 'one mass twice',
      facts: { scale_readings: 240, scale_drop_kg: 0.412, entered_drop_kg: 0.41, drawn_kg: 0.411 },
      outcome: 'pass',
      message: 'right',
    },
    {
      name: 'pounds beside kilograms',
      facts: { scale_readings: 240, scale_drop_kg: 0.906, entered_drop_kg: 0.411, charge_problem: 'scale-unit' },
      outcome: 'fail',
      message: 'scale',
    },
    {
      name: 'a cylinder of nine tons',
      facts: { scale_readings: 240, scale_problem: 'unit' },
      outcome: 'fail',
      message: 'scale-heavy',
    },
    {
      name: 'psi in a column of pascals',
      facts: { run_readings: 200, run_problem: 'pressure-unit' },
      outcome: 'fail',
      message: 'pressure',
    },
    {
      name: 'two figures of one mass',
      facts: { scale_readings: 240, scale_drop_kg: 0.412, entered_drop_kg: 0.5, drawn_kg: 0.411 },
      outcome: 'not-evaluated',
      message: 'differ',
    },
    {
      name: 'a test at 420 psig',
      facts: { recorded_columns: 1, highest_test_pa: 3_000_000 },
      outcome: 'pass',
      message: 'as-said',
    },
    ...unitExamples,
    { name: 'no scale', facts: {}, outcome: 'not-evaluated', message: 'nothing-to-compare' },
  ],
  judge(facts) {
    const { scale_readings, scale_problem, charge_problem, scale_drop_kg, entered_drop_kg, run_problem } = facts;
    if (facts.unit_column !== undefined && facts.unit_sign !== undefined) return unitJudgement(facts, facts.unit_sign);
    if (run_problem === 'pressure-unit') return { outcome: 'fail', message: 'pressure', evidence: {} };
    if (scale_problem === 'unit') return { outcome: 'fail', message: 'scale-heavy', evidence: { scale_readings } };
    const evidence = { scale_drop_kg, entered_drop_kg };
    const isWeighed = scale_readings !== undefined && scale_drop_kg !== undefined && entered_drop_kg !== undefined;
    if (isWeighed && charge_problem === 'scale-unit') return { outcome: 'fail', message: 'scale', evidence };
    const isOne =
      isWeighed && Math.abs(scale_drop_kg - entered_drop_kg) <= Math.max(apartKg, apartRatio * entered_drop_kg);
    if (isWeighed && !isOne) return { outcome: 'not-evaluated', message: 'differ', evidence };
    const looked = fittingOf(facts);
    if (isOne && looked.length === 0) return { outcome: 'pass', message: 'right', evidence };
    if (looked.length === 0) return { outcome: 'not-evaluated', message: 'nothing-to-compare', evidence: {} };
    const looked_at = [...(isOne ? ['the scale and what was written down'] : []), ...looked].join(', ');
    return { outcome: 'pass', message: 'as-said', evidence: { ...evidence, looked_at } };
  },
});

function unitJudgement(facts: Partial<Facts>, sign: NonNullable<Facts['unit_sign']>): Judgement<typeof sign> {
  return { outcome: facts.unit_sure ? 'fail' : 'suspect', message: sign, evidence: unitEvidence(facts) };
}

/** What shows itself to be in the unit of its column. */
function fittingOf({ highest_test_pa, first_seen_pa, rest_deviation }: Partial<Facts>): string[] {
  const isWithin = (pa: number | undefined, [from, to]: readonly [number, number]) =>
    pa !== undefined && pa >= from && pa <= to;
  return [
    ...(isWithin(highest_test_pa, testPa) ? ['the pressure of the test'] : []),
    ...(isWithin(first_seen_pa, rangePa) ? ['the range of the vacuum gauge'] : []),
    ...(Math.abs(rest_deviation ?? Number.POSITIVE_INFINITY) <= restDeviations ? ['the pressure at rest'] : []),
  ];
}
