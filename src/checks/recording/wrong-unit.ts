import { check } from '../check.ts';

// Common practice, no source: a unit is off by far more.
const apartKg = 0.05;
const apartRatio = 0.1;

/** Whether an instrument's readings are in the unit that their column says. */
export const wrongUnit = check({
  id: 'wrong-unit',
  group: 'recording',
  question: 'Are the readings of scale and gauges in the unit that their column says?',
  needs: ['scale_readings', 'drawn_kg'],
  limits: {},
  messages: {
    right: 'The scale and what was written down go together.',
    scale:
      'The log of the scale, {scale_drop_kg}, and what was written down, {entered_drop_kg}, differ by a unit: pounds, ounces or grams in a column of kilograms. Mend the source map and take the file in again.',
    'scale-heavy':
      'The scale shows more than any cylinder weighs: grams, ounces or pounds in a column of kilograms. Mend the source map and take the file in again.',
    pressure:
      'While the system ran no pressure is ever above that of the air by as much again: psi, bar or kilopascals in a column of pascals. Mend the source map and take the file in again.',
    differ: 'The log of the scale and what was written down differ, but by no unit.',
    'nothing-to-compare': 'There is no flow in a log of the scale with a written figure beside it.',
  },
  teach:
    'The unit belongs to the column, not to the person who reads it. Look at one job of which you know the figures before a year of files is taken in.',
  references: ['common-practice'],
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
    { name: 'no scale', facts: {}, outcome: 'not-evaluated', message: 'nothing-to-compare' },
  ],
  judge({ scale_readings, scale_problem, charge_problem, scale_drop_kg, entered_drop_kg, run_problem }) {
    if (run_problem === 'pressure-unit') return { outcome: 'fail', message: 'pressure', evidence: {} };
    if (scale_problem === 'unit') return { outcome: 'fail', message: 'scale-heavy', evidence: { scale_readings } };
    if (scale_readings === undefined || scale_drop_kg === undefined || entered_drop_kg === undefined)
      return { outcome: 'not-evaluated', message: 'nothing-to-compare', evidence: {} };
    const evidence = { scale_drop_kg, entered_drop_kg };
    if (charge_problem === 'scale-unit') return { outcome: 'fail', message: 'scale', evidence };
    const isOne = Math.abs(scale_drop_kg - entered_drop_kg) <= Math.max(apartKg, apartRatio * entered_drop_kg);
    return isOne
      ? { outcome: 'pass', message: 'right', evidence }
      : { outcome: 'not-evaluated', message: 'differ', evidence };
  },
});
