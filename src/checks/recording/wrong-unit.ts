import { check } from '../check.ts';

/** Whether an instrument's readings are in the unit that their column says. */
export const wrongUnit = check({
  id: 'wrong-unit',
  group: 'recording',
  question: 'Are the readings of the scale in the unit that their column says?',
  needs: ['scale_readings', 'drawn_kg'],
  limits: {},
  messages: {
    right: 'The scale and what was written down go together.',
    scale:
      'The log of the scale, {scale_drop_kg}, and what was written down, {entered_drop_kg}, differ by a unit: pounds, ounces or grams in a column of kilograms. Mend the source map and take the file in again.',
    'scale-heavy':
      'The scale shows more than any cylinder weighs: grams, ounces or pounds in a column of kilograms. Mend the source map and take the file in again.',
    'nothing-to-compare': 'There is no log of the scale with a written figure beside it.',
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
    { name: 'no scale', facts: {}, outcome: 'not-evaluated', message: 'nothing-to-compare' },
  ],
  judge({ scale_readings, scale_problem, charge_problem, scale_drop_kg, entered_drop_kg }) {
    if (scale_problem === 'unit') return { outcome: 'fail', message: 'scale-heavy', evidence: { scale_readings } };
    if (scale_readings === undefined || scale_drop_kg === undefined || entered_drop_kg === undefined)
      return { outcome: 'not-evaluated', message: 'nothing-to-compare', evidence: {} };
    const evidence = { scale_drop_kg, entered_drop_kg };
    return charge_problem === 'scale-unit'
      ? { outcome: 'fail', message: 'scale', evidence }
      : { outcome: 'pass', message: 'right', evidence };
  },
});
