import { z } from 'zod';
import { check, limit } from '../check.ts';

const adder = { recorded_adder_kg_per_m: 0.0251, computed_adder_kg_per_m: 0.0182, adder_ratio: 1.38 };

/** Whether the adder on record is one that the line's bore and the refrigerant allow. */
export const adderDisagrees = check({
  id: 'adder-disagrees',
  group: 'charge',
  revisit: 'charge',
  question: 'Does the recorded adder fit the bore of the line and the refrigerant?',
  needs: ['adder_ratio', 'recorded_adder_kg_per_m', 'computed_adder_kg_per_m'],
  limits: {
    least_ratio: limit({
      description: 'Least that a recorded adder may be, as a ratio of what a metre of the liquid line holds',
      schema: z.number().min(0).max(1),
      default: 0.6,
      source: 'common-practice',
    }),
    most_ratio: limit({
      description: 'Most that it may be, by the same: makers’ adders hold margins of up to four tenths',
      schema: z.number().min(1).max(10),
      default: 1.6,
      source: 'common-practice',
    }),
  },
  messages: {
    fits: 'The recorded adder, {recorded_adder_kg_per_m}, is {adder_ratio} of what the liquid line holds, {computed_adder_kg_per_m}; up to {most_ratio} is taken for a maker’s margin.',
    'too-small':
      'The recorded adder, {recorded_adder_kg_per_m}, is only {adder_ratio} of what the liquid line holds, {computed_adder_kg_per_m}: that of a thinner line, or a slip of the pen.',
    'too-large':
      'The recorded adder, {recorded_adder_kg_per_m}, is {adder_ratio} of what the liquid line holds, {computed_adder_kg_per_m}: that of a thicker line, or a slip of the pen.',
    deduction:
      'The recorded adder, {recorded_adder_kg_per_m}, is a deduction; it is taken as the maker’s, and is not held against the line.',
    'nothing-to-compare':
      'The record lacks the adder, the size of the liquid line or a known refrigerant, so there is nothing to compare.',
  },
  teach:
    'The adder belongs to one size of liquid line and to one refrigerant. Read it from the row of the size that is really on the wall, and look again where the sum seems large for the pipe.',
  references: ['maker-line-set-table', 'common-practice'],
  examples: [
    { name: '0.27 oz/ft where the line holds 0.195', facts: adder, outcome: 'pass', message: 'fits' },
    {
      name: 'the adder of 3/8 in for a line of 1/4 in',
      facts: { ...adder, recorded_adder_kg_per_m: 0.0558, adder_ratio: 3.07 },
      outcome: 'suspect',
      message: 'too-large',
    },
    {
      name: 'the adder of 1/4 in for a line of 3/8 in',
      facts: { recorded_adder_kg_per_m: 0.0251, computed_adder_kg_per_m: 0.0485, adder_ratio: 0.518 },
      outcome: 'suspect',
      message: 'too-small',
    },
    {
      name: 'the maker deducts',
      facts: { ...adder, recorded_adder_kg_per_m: -0.01, adder_ratio: -0.55 },
      outcome: 'not-evaluated',
      message: 'deduction',
    },
    { name: 'no adder on record', facts: {}, outcome: 'not-evaluated', message: 'nothing-to-compare' },
  ],
  judge({ adder_ratio, recorded_adder_kg_per_m, computed_adder_kg_per_m }, { least_ratio, most_ratio }) {
    if (adder_ratio === undefined || recorded_adder_kg_per_m === undefined || computed_adder_kg_per_m === undefined)
      return { outcome: 'not-evaluated', message: 'nothing-to-compare', evidence: {} };
    const isSmall = adder_ratio < least_ratio.value;
    const bound = isSmall ? least_ratio : most_ratio;
    const evidence = {
      recorded_adder_kg_per_m,
      computed_adder_kg_per_m,
      adder_ratio,
      least_ratio: least_ratio.value,
      most_ratio: most_ratio.value,
      limit_source: bound.source,
    };
    if (recorded_adder_kg_per_m < 0) return { outcome: 'not-evaluated', message: 'deduction', evidence };
    const result = { value: adder_ratio, limit: bound.value, evidence };
    if (isSmall) return { ...result, outcome: 'suspect', message: 'too-small' };
    if (adder_ratio > most_ratio.value) return { ...result, outcome: 'suspect', message: 'too-large' };
    return { ...result, outcome: 'pass', message: 'fits' };
  },
});
