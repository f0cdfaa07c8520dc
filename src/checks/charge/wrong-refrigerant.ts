import { z } from 'zod';
import { check, limit } from '../check.ts';

const rested = {
  rest_pa: 1480000,
  rest_k: 295.15,
  rest_expected_pa: 1476000,
  rest_deviation: 0.1,
  refrigerant_seen: 'both',
  likely_refrigerant_ratio: 0.0001,
  air_ratio: 0.01,
} as const;

/** Whether what is in the system, or in the cylinder it came from, is what the record says. */
export const wrongRefrigerant = check({
  id: 'wrong-refrigerant',
  group: 'charge',
  revisit: 'charge',
  question: 'Is the refrigerant the one on record?',
  needs: ['weighed_refrigerant', 'refrigerant_seen', 'likely_refrigerant_ratio'],
  limits: {
    sure_ratio: limit({
      description: 'Probability of another refrigerant from which this fails; below it is suspect',
      schema: z.number().min(0.5).max(1),
      default: 0.9,
      source: 'common-practice',
    }),
  },
  messages: {
    fits: 'Pressures and temperatures fit the refrigerant on record.',
    'fits-by-run':
      'The run fits the refrigerant on record; without the pressure at rest it tells only refrigerants apart that are far from each other.',
    'fits-as-well':
      'Pressures and temperatures fit the refrigerant on record; they do not tell it from {refrigerants_alike}: there the label of the cylinder alone tells.',
    cylinder: 'The weighings are of {weighed_refrigerant}, which is not the refrigerant on record.',
    other:
      'Pressures and temperatures do not fit the refrigerant on record; another one is in it ({likely_refrigerant_ratio}); of those known {likely_refrigerant} fits best. Read the label of the cylinder and the nameplate before anything else is done, and recover, never vent, what does not belong.',
    'other-or-air':
      'At rest the pressure is {rest_gauge_pa} where the refrigerant on record has {rest_expected_gauge_pa}: air in the system ({air_ratio}) or another refrigerant, likeliest {likely_refrigerant} ({likely_refrigerant_ratio}).',
    air: 'At rest the pressure is {rest_gauge_pa} where the refrigerant on record has {rest_expected_gauge_pa}: likely air or nitrogen in the system ({air_ratio}).',
    'none-fits':
      'At rest the pressure is {rest_gauge_pa}, where the refrigerant on record has {rest_expected_gauge_pa}, and no other known one fits. Where no liquid is left the pressure is lower: look for a charge that was lost, and at gauge and clamp.',
    'label-alone': 'The weighings are of the refrigerant on record; no pressures at rest or in a steady run tell more.',
    unseen: 'Neither weighings nor pressures tell which refrigerant it is.',
  },
  teach:
    'Two refrigerants in one system have no pressure that a chart knows, and some of them burn. Read the label of every cylinder and the nameplate before the hose is connected; let the system rest, and hold its pressure against the temperature of its coldest part.',
  references: ['common-practice'],
  examples: [
    { name: 'at rest as it should be', facts: rested, outcome: 'pass', message: 'fits' },
    {
      name: 'R-410A and R-32 are too alike',
      facts: { ...rested, refrigerants_alike: 'R-32' },
      outcome: 'pass',
      message: 'fits-as-well',
    },
    {
      name: 'a cylinder of R-22',
      facts: { ...rested, weighed_refrigerant: 'R-22' },
      outcome: 'fail',
      message: 'cylinder',
    },
    {
      name: 'the pressure of R-22',
      facts: { ...rested, likely_refrigerant: 'R-22', likely_refrigerant_ratio: 0.999 },
      outcome: 'fail',
      message: 'other',
    },
    {
      name: 'hardly known',
      facts: { ...rested, likely_refrigerant: 'R-22', likely_refrigerant_ratio: 0.8 },
      outcome: 'suspect',
      message: 'other',
    },
    {
      name: 'air, or another one',
      facts: { ...rested, likely_refrigerant: 'R-32', likely_refrigerant_ratio: 0.2, air_ratio: 0.7 },
      outcome: 'suspect',
      message: 'other-or-air',
    },
    {
      name: 'air',
      facts: { ...rested, rest_pa: 1650000, air_ratio: 0.98 },
      outcome: 'suspect',
      message: 'air',
    },
    {
      name: 'seen running alone',
      facts: { refrigerant_seen: 'run', likely_refrigerant_ratio: 0.001 },
      outcome: 'pass',
      message: 'fits-by-run',
    },
    {
      name: 'a pressure of none',
      facts: { ...rested, rest_pa: 400000, rest_fits_none: true },
      outcome: 'suspect',
      message: 'none-fits',
    },
    {
      name: 'weighed, never read',
      facts: { weighed_named: true },
      outcome: 'not-evaluated',
      message: 'label-alone',
    },
    { name: 'nothing', facts: {}, outcome: 'not-evaluated', message: 'unseen' },
  ],
  judge(facts, { sure_ratio }) {
    const { likely_refrigerant, likely_refrigerant_ratio = 0, air_ratio = 0, weighed_refrigerant } = facts;
    const { refrigerants_alike, rest_pa, rest_expected_pa, refrigerant_seen } = facts;
    const evidence = {
      weighed_refrigerant,
      likely_refrigerant,
      likely_refrigerant_ratio,
      air_ratio,
      refrigerants_alike,
      rest_gauge_pa: rest_pa,
      rest_expected_gauge_pa: rest_expected_pa,
      atmosphere_pa: facts.atmosphere_pa,
      sure_source: sure_ratio.source,
    };
    if (weighed_refrigerant !== undefined) return { outcome: 'fail', message: 'cylinder', evidence };
    if (refrigerant_seen === undefined)
      return {
        outcome: 'not-evaluated',
        message: facts.weighed_named ? 'label-alone' : 'unseen',
        evidence: {},
      };
    const result = { value: likely_refrigerant_ratio, limit: sure_ratio.value, evidence };
    if (facts.rest_fits_none && rest_pa !== undefined && rest_expected_pa !== undefined)
      return { ...result, outcome: 'suspect', message: 'none-fits' };
    const isRested = rest_pa !== undefined && rest_expected_pa !== undefined;
    if (likely_refrigerant === undefined && air_ratio > 0.5 && isRested)
      return { ...result, outcome: 'suspect', message: 'air' };
    if (likely_refrigerant === undefined) {
      const fits = refrigerant_seen === 'run' ? 'fits-by-run' : 'fits';
      return { ...result, outcome: 'pass', message: refrigerants_alike === undefined ? fits : 'fits-as-well' };
    }
    if (air_ratio > likely_refrigerant_ratio && isRested)
      return { ...result, outcome: 'suspect', message: 'other-or-air' };
    return { ...result, outcome: likely_refrigerant_ratio >= sure_ratio.value ? 'fail' : 'suspect', message: 'other' };
  },
});
