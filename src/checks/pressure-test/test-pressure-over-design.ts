import { z } from 'zod';
import { check, limit } from '../check.ts';
import { airPressure, pressureLogExamples, pressureLogMessages, pressureLogProblem } from '../pressure-test-problem.ts';

// Up to 300 psig at sea level; design pressures of 450 and 250 psig.
const test300 = { pressure_readings: 900, highest_test_pa: 2169752 };
const test550 = { pressure_readings: 900, highest_test_pa: 3893441 };
const [psig450, psig300, psig250] = [3203966, 2169752, 1825014];

const notRecorded = '0: not recorded';
const upTo = 'The test went up to {highest_test_pa}.';
const lowSide = 'Find out whether the low side was shut off, and look at its nameplate.';

/** Whether the test went above what the system is rated for. */
export const testPressureOverDesign = check({
  id: 'test-pressure-over-design',
  group: 'pressure-test',
  revisit: 'leak',
  question: 'Did the pressure test stay within what the system is rated for?',
  needs: ['highest_test_pa'],
  limits: {
    high_pa: limit({
      description: `Design pressure of the high side, absolute; ${notRecorded}`,
      unit: 'Pa',
      schema: z.number().min(0).max(30000000),
      default: 0,
      source: 'common-practice',
      recorded: 'design_high_pa',
    }),
    low_pa: limit({
      description: `Design pressure of the low side, absolute; ${notRecorded}`,
      unit: 'Pa',
      schema: z.number().min(0).max(30000000),
      default: 0,
      source: 'common-practice',
      recorded: 'design_low_pa',
    }),
    most_ratio: limit({
      description: 'Up to this ratio of a design pressure, both as gauges count, a test may go',
      schema: z.number().min(0.1).max(2),
      default: 1.1,
      source: 'common-practice',
    }),
    rated_ratio: limit({
      description: 'Above this ratio of a design pressure a test is to be looked at; what it is above 1 is the gauge',
      schema: z.number().min(0.1).max(2),
      default: 1.02,
      source: 'common-practice',
    }),
  },
  messages: {
    ...pressureLogMessages,
    within: `${upTo} The high side is rated for {high_test_pa} and the low side for {low_test_pa}; what a gauge may be off is let pass.`,
    'within-low': `${upTo} The low side is rated for {low_test_pa}, what a gauge may be off is let pass; the rating of the high side is not recorded.`,
    over: `${upTo} That is over the limit of {most_high_test_pa} by the rating of the high side ({high_test_pa}).`,
    'over-low': `${upTo} That is within the limit of {most_high_test_pa} for the high side, but over that of {most_low_test_pa} by the rating of the low side ({low_test_pa}). ${lowSide}`,
    'over-low-only': `${upTo} That is over the limit of {most_low_test_pa} by the rating of the low side ({low_test_pa}); that of the high side is not recorded. ${lowSide}`,
    'above-rating': `${upTo} That is above the rating of the {rated_side} side ({rated_test_pa}), though within the {most_rated_test_pa} that a strength test may go to by some rules. Ask whether it was meant as one.`,
    'no-low': `${upTo} The high side is rated for {high_test_pa}; the rating of the low side is not recorded, and it may be lower.`,
    'no-design-pressure': `${upTo} What the system is rated for is not recorded.`,
    'no-highest': 'How far the pressure test went up is not known.',
  },
  teach:
    'A test above the rating of the weakest part can burst a coil, a sight glass or a hose in someone’s face. Read the nameplates of both units first, and shut off or leave out what is rated lower. Go up in steps, by a regulator and with a relief device that opens above the test pressure and below what the parts stand; stand aside while it rises. A test that shows too little is held for longer, never at more pressure. Dry nitrogen only, never oxygen or air.',
  references: ['ashrae-15-1994', 'common-practice'],
  examples: [
    {
      name: '300 psig on sides rated for 450 and 300',
      facts: test300,
      limits: { high_pa: psig450, low_pa: psig300 },
      outcome: 'pass',
      message: 'within',
    },
    {
      name: '550 psig on a high side rated for 450',
      facts: test550,
      limits: { high_pa: psig450, low_pa: psig250 },
      outcome: 'fail',
      message: 'over',
    },
    {
      name: '300 psig on sides rated for 280: a strength test by some rules, else too much',
      facts: test300,
      limits: { high_pa: 2031857, low_pa: 2031857 },
      outcome: 'suspect',
      message: 'above-rating',
    },
    {
      name: '550 psig where the rule allows a quarter more than 450',
      facts: test550,
      limits: { high_pa: psig450, low_pa: psig450, most_ratio: 1.25, rated_ratio: 1.25 },
      outcome: 'pass',
      message: 'within',
    },
    {
      name: '300 psig on a low side rated for 250',
      facts: test300,
      limits: { high_pa: psig450, low_pa: psig250 },
      outcome: 'suspect',
      message: 'over-low',
    },
    {
      name: '300 psig on a low side rated for 250, the high side not recorded',
      facts: test300,
      limits: { low_pa: psig250 },
      outcome: 'suspect',
      message: 'over-low-only',
    },
    {
      name: '300 psig on a low side rated for that, the high side not recorded',
      facts: test300,
      limits: { low_pa: psig300 },
      outcome: 'pass',
      message: 'within-low',
    },
    {
      name: '300 psig on a high side rated for 450, the low side not recorded',
      facts: test300,
      limits: { high_pa: psig450 },
      outcome: 'not-evaluated',
      message: 'no-low',
    },
    { name: 'no rating recorded', facts: test300, outcome: 'not-evaluated', message: 'no-design-pressure' },
    {
      name: 'filled to 550 psig, and never held',
      facts: { ...test550, pressure_problem: 'never-held' },
      limits: { high_pa: psig450 },
      outcome: 'fail',
      message: 'over',
    },
    {
      name: '300 psig, and a gap that more may hide in',
      facts: { ...test300, pressure_problem: 'gap' },
      limits: { high_pa: psig450, low_pa: psig300 },
      outcome: 'not-evaluated',
      message: 'gap',
    },
    {
      name: 'how far it went up is not known',
      facts: { pressure_readings: 900 },
      outcome: 'not-evaluated',
      message: 'no-highest',
    },
    ...pressureLogExamples,
  ],
  judge(facts, { high_pa, low_pa, most_ratio, rated_ratio }) {
    const problem = pressureLogProblem(facts);
    const { highest_test_pa: highestPa } = facts;
    if (highestPa === undefined) return problem ?? { outcome: 'not-evaluated', message: 'no-highest', evidence: {} };
    const airPa = airPressure(facts);
    const isRecorded = { high: high_pa.value > airPa, low: low_pa.value > airPa };
    // Ratings are gauge pressures, and so is a share of them.
    const mostPa = (designPa: number) => airPa + (designPa - airPa) * most_ratio.value;
    const evidence = {
      highest_test_pa: highestPa,
      atmosphere_pa: airPa,
      ...(isRecorded.high
        ? { high_test_pa: high_pa.value, high_source: high_pa.source, most_high_test_pa: mostPa(high_pa.value) }
        : {}),
      ...(isRecorded.low
        ? { low_test_pa: low_pa.value, low_source: low_pa.source, most_low_test_pa: mostPa(low_pa.value) }
        : {}),
      ...(isRecorded.high || isRecorded.low ? { most_ratio: most_ratio.value, most_source: most_ratio.source } : {}),
    };
    const against = (designPa: number) => ({
      value: highestPa,
      limit: mostPa(designPa),
      unit: 'Pa' as const,
      evidence,
    });
    if (isRecorded.high && highestPa > mostPa(high_pa.value))
      return { ...against(high_pa.value), outcome: 'fail', message: 'over' };
    if (isRecorded.low && highestPa > mostPa(low_pa.value))
      return {
        ...against(low_pa.value),
        outcome: 'suspect',
        message: isRecorded.high ? 'over-low' : 'over-low-only',
      };
    const sides = { low: low_pa.value, high: high_pa.value };
    const above = (['low', 'high'] as const).find(
      (side) => isRecorded[side] && highestPa > airPa + (sides[side] - airPa) * rated_ratio.value,
    );
    if (above !== undefined) {
      const rated = { rated_side: above, rated_test_pa: sides[above], most_rated_test_pa: mostPa(sides[above]) };
      return {
        ...against(sides[above]),
        outcome: 'suspect',
        message: 'above-rating',
        evidence: { ...evidence, ...rated, rated_source: rated_ratio.source },
      };
    }
    // What the log does not show may have been higher.
    if (problem !== undefined) return problem;
    if (isRecorded.low)
      return { ...against(low_pa.value), outcome: 'pass', message: isRecorded.high ? 'within' : 'within-low' };
    return { outcome: 'not-evaluated', message: isRecorded.high ? 'no-low' : 'no-design-pressure', evidence };
  },
});
