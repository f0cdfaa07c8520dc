import { z } from 'zod';
import { check, limit } from '../check.ts';

const logged = {
  scale_readings: 240,
  scale_step_kg: 0.005,
  scale_shifts: 0,
  scale_drop_kg: 0.412,
  scale_drop_low_kg: 0.407,
  scale_drop_high_kg: 0.417,
};

/** Whether the log of the scale tells plainly how much went in. */
export const scaleUnsteady = check({
  id: 'scale-unsteady',
  group: 'charge',
  gear: ['scale'],
  revisit: 'charge',
  question: 'Does the log of the scale tell plainly how much went in?',
  needs: ['scale_readings', 'scale_drop_kg', 'scale_drop_low_kg', 'scale_drop_high_kg'],
  limits: {
    uncertain_kg: limit({
      description: 'Half the 95 % interval of what went in, from which the log is no plain word',
      unit: 'kg',
      schema: z.number().positive().max(10),
      default: 0.03,
      source: 'common-practice',
    }),
    apart_kg: limit({
      description: 'What the log and what was written down may differ by, beside two steps of the scale',
      unit: 'kg',
      schema: z.number().min(0).max(10),
      default: 0.02,
      source: 'common-practice',
    }),
  },
  messages: {
    steady: 'The scale stood still before and after, and {scale_drop_kg} (± {uncertain_kg}) flowed off it.',
    'moved-told':
      'The scale was moved {scale_shifts} times (by up to {scale_largest_shift_kg}) without a flow; that taken out, {scale_drop_kg} (± {uncertain_kg}) flowed off it.',
    unsteady: 'The scale was not steady enough to tell: {scale_drop_kg}, uncertain by {uncertain_kg}.',
    'written-differs':
      'By the log of the scale {scale_drop_kg} (± {uncertain_kg}) flowed off it; written down is {entered_drop_kg}. One of the two is wrong.',
    'no-log': 'There is no log of the scale.',
    'too-few-readings': 'The log of the scale has too few readings to judge ({scale_readings}).',
    cut: 'The log of the scale begins or ends while the scale still moves, so that it does not tell how much went in.',
    'no-flow-though-written':
      'The log of the scale shows no refrigerant flow off it, though {drawn_kg} is written down.',
    'no-flow': 'The log of the scale shows no refrigerant flow off it.',
    recovered:
      'Refrigerant came back onto the scale before it was charged from it, so that the log does not tell how much went in.',
    unit: 'The log of the scale is in another unit than its column says.',
    'time-unit':
      'The times of the log look like another unit than seconds (see the check of units), so nothing is said of the scale.',
  },
  teach:
    'Put the cylinder where nobody touches it, hang the hose so that it neither pulls nor is pulled, and let the scale stand still for half a minute before and after. Do not zero it in mid-charge, and write down where one cylinder ended and the next began.',
  references: ['common-practice'],
  examples: [
    { name: 'undisturbed', facts: logged, outcome: 'pass', message: 'steady' },
    {
      name: 'leaned upon',
      facts: { ...logged, scale_shifts: 2, scale_largest_shift_kg: 1.4 },
      outcome: 'pass',
      message: 'moved-told',
    },
    {
      name: 'in the wind',
      facts: { ...logged, scale_drop_low_kg: 0.36, scale_drop_high_kg: 0.46 },
      outcome: 'suspect',
      message: 'unsteady',
    },
    {
      name: 'another figure in the record',
      facts: { ...logged, entered_drop_kg: 0.5 },
      outcome: 'suspect',
      message: 'written-differs',
    },
    {
      name: 'a scale that stood still',
      facts: { scale_readings: 200, scale_problem: 'no-flow', drawn_kg: 0.5 },
      outcome: 'suspect',
      message: 'no-flow-though-written',
    },
    { name: 'no log', facts: {}, outcome: 'not-evaluated', message: 'no-log' },
    ...(['too-few-readings', 'cut', 'no-flow', 'recovered', 'unit', 'time-unit'] as const).map((problem) => ({
      name: problem,
      facts: { scale_readings: 5, scale_problem: problem },
      outcome: 'not-evaluated' as const,
      message: problem,
    })),
  ],
  judge(facts, { uncertain_kg: mostUncertain, apart_kg: mostApart }) {
    const { scale_readings, scale_problem: problem, scale_drop_kg: dropKg, entered_drop_kg } = facts;
    const { scale_drop_low_kg: lowKg, scale_drop_high_kg: highKg, scale_step_kg: stepKg = 0 } = facts;
    if (scale_readings === undefined) return { outcome: 'not-evaluated', message: 'no-log', evidence: {} };
    if (problem === 'no-flow' && (facts.drawn_kg ?? 0) > mostApart.value)
      return {
        outcome: 'suspect',
        message: 'no-flow-though-written',
        evidence: { scale_readings, drawn_kg: facts.drawn_kg },
      };
    if (problem !== undefined)
      return { outcome: 'not-evaluated', message: problem, evidence: { scale_readings, scale_step_kg: stepKg } };
    if (dropKg === undefined || lowKg === undefined || highKg === undefined)
      return { outcome: 'not-evaluated', message: 'no-flow', evidence: { scale_readings } };
    const uncertain_kg = (highKg - lowKg) / 2;
    const { scale_shifts = 0, scale_largest_shift_kg } = facts;
    const evidence = {
      scale_drop_kg: dropKg,
      uncertain_kg,
      entered_drop_kg,
      scale_shifts,
      scale_largest_shift_kg,
      scale_step_kg: stepKg,
      limit_source: mostUncertain.source,
    };
    const result = { value: uncertain_kg, limit: mostUncertain.value, unit: 'kg' as const, evidence };
    const mostApartKg = mostApart.value + 2 * stepKg + uncertain_kg;
    if (entered_drop_kg !== undefined && Math.abs(entered_drop_kg - dropKg) > mostApartKg)
      return { ...result, outcome: 'suspect', message: 'written-differs' };
    if (uncertain_kg > mostUncertain.value) return { ...result, outcome: 'suspect', message: 'unsteady' };
    const isMoved = scale_shifts > 0 && scale_largest_shift_kg !== undefined;
    return { ...result, outcome: 'pass', message: isMoved ? 'moved-told' : 'steady' };
  },
});
