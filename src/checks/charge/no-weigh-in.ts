import { check } from '../check.ts';

/** Whether what was charged was weighed at all. */
export const noWeighIn = check({
  id: 'no-weigh-in',
  group: 'charge',
  asks: 'test-made',
  revisit: 'charge',
  question: 'Was the charge weighed in?',
  needs: ['charged_from', 'drawn_kg'],
  limits: {},
  messages: {
    scale: 'The log of the scale shows {drawn_kg} leave the cylinder.',
    weighings: 'By the weighings {drawn_kg} left the cylinder; no log of the scale tells it.',
    record: 'The record says that {drawn_kg} left the cylinder; neither weighings nor a log of the scale tell it.',
    reversed: 'By what was written down the cylinder weighed more after than before, by {gained_kg}.',
    none: 'Nothing tells how much was charged: no log of the scale, no weighings, no figure in the record.',
    'no-charging-work': 'The work was of a kind on which nothing is charged.',
    'no-record': 'There is no record of the job, only readings.',
  },
  teach:
    'A charge that was not weighed cannot be looked up afterwards. Put the cylinder on the scale, let it settle, write down what it shows, charge, let it settle again, write down what it shows then, and what stays in the hoses.',
  references: ['common-practice'],
  examples: [
    { name: 'logged', facts: { charged_from: 'scale', drawn_kg: 0.412 }, outcome: 'pass', message: 'scale' },
    {
      name: 'written down twice',
      facts: { charged_from: 'weighings', drawn_kg: 0.41 },
      outcome: 'pass',
      message: 'weighings',
    },
    { name: 'a figure alone', facts: { charged_from: 'record', drawn_kg: 0.4 }, outcome: 'pass', message: 'record' },
    {
      name: 'more after than before',
      facts: { charged_from: 'weighings', drawn_kg: -0.3 },
      outcome: 'not-evaluated',
      message: 'reversed',
    },
    { name: 'nothing', facts: { charge_problem: 'no-weigh-in' }, outcome: 'missing', message: 'none' },
    {
      name: 'a service visit',
      facts: { charge_problem: 'no-charging-work' },
      outcome: 'not-evaluated',
      message: 'no-charging-work',
    },
    { name: 'readings only', facts: {}, outcome: 'not-evaluated', message: 'no-record' },
  ],
  judge({ charged_from: from, drawn_kg, charge_problem: problem }) {
    if (drawn_kg !== undefined && drawn_kg < 0)
      return { outcome: 'not-evaluated', message: 'reversed', evidence: { gained_kg: -drawn_kg } };
    if (from !== undefined && drawn_kg !== undefined)
      return { outcome: 'pass', message: from, value: drawn_kg, unit: 'kg', evidence: { drawn_kg } };
    if (problem === 'no-charging-work') return { outcome: 'not-evaluated', message: problem, evidence: {} };
    if (problem === 'no-weigh-in') return { outcome: 'missing', message: 'none', evidence: {} };
    return { outcome: 'not-evaluated', message: 'no-record', evidence: {} };
  },
});
