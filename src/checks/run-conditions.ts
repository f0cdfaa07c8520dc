import { z } from 'zod';
import type { Facts } from '../records/tables/facts.ts';
import { type CheckExample, type Judgement, type Limit, limit } from './check.ts';

/** Outdoors below this neither superheat nor subcooling is judged. */
export const leastOutdoorK = limit({
  description: 'Outdoor temperature below which neither superheat nor subcooling is judged: 55 °F',
  unit: 'K',
  schema: z.number().min(223).max(333),
  default: 285.93,
  source: 'title-24-ra3-2',
});

/** Messages of every check that judges superheat or subcooling. */
export const conditionMessages = {
  'too-cold': 'It was {outdoor_k} outdoors; below {least_outdoor_k} nothing is judged.',
  'no-outdoor': 'The outdoor temperature was not read, and without it nothing is judged.',
  'free-speed':
    'The compressor chose its own speed, no fixed test mode is on record; such a system is judged by weight alone.',
} as const;

type ConditionMessage = keyof typeof conditionMessages;

/** Facts of a steady run outdoors at 95 °F. */
export const steadyFacts: Partial<Facts> = {
  run_readings: 240,
  run_s: 1500,
  steady_start_s: 900,
  steady_end_s: 1500,
  run_outdoor_k: 308.15,
  run_indoor_k: 299.82,
  run_indoor_wet_bulb_k: 292.59,
};

/** Examples of every such check; the facts are those of a run that could be judged. */
export function conditionExamples(judged: Partial<Facts>): readonly CheckExample<ConditionMessage>[] {
  return [
    {
      name: 'a cold day',
      facts: { ...judged, run_outdoor_k: 280 },
      outcome: 'not-evaluated',
      message: 'too-cold',
    },
    {
      name: 'no thermometer outdoors',
      facts: { ...judged, run_outdoor_k: undefined },
      outcome: 'not-evaluated',
      message: 'no-outdoor',
    },
    {
      name: 'a compressor at its own speed',
      facts: { ...judged, run_speed: 'free' },
      outcome: 'not-evaluated',
      message: 'free-speed',
    },
  ];
}

/** The judgement where the conditions allow none; undefined where they do. */
export function conditionProblem(
  { run_outdoor_k: outdoorK, run_speed }: Partial<Facts>,
  least: Limit<number>,
): Judgement<ConditionMessage> | undefined {
  if (run_speed === 'free') return { outcome: 'not-evaluated', message: 'free-speed', evidence: {} };
  if (outdoorK === undefined) return { outcome: 'not-evaluated', message: 'no-outdoor', evidence: {} };
  if (outdoorK >= least.value) return undefined;
  const evidence = { outdoor_k: outdoorK, least_outdoor_k: least.value, outdoor_source: least.source };
  return { outcome: 'not-evaluated', message: 'too-cold', evidence };
}

/** A difference of temperatures with its 95 % interval, where one is known [K]. */
export interface MeasuredDifference {
  readonly k: number;
  readonly lowK: number | undefined;
  readonly highK: number | undefined;
}

/** How far it is from its target [K], what that is worth, and the limit that says so. */
export interface OffTarget {
  readonly offK: number;
  readonly outcome: 'pass' | 'suspect' | 'fail';
  readonly bound: Limit<number>;
}

/**
 * A difference beside its target: suspect from one limit on, a fail from another where the interval is beyond the first.
 *
 * @returns half the interval alone where it is wider than the limit to fail, so that nothing can be said
 */
export function offTarget(
  { k, lowK, highK }: MeasuredDifference,
  targetK: number,
  suspect: Limit<number>,
  fail: Limit<number>,
): OffTarget | { readonly uncertainK: number } {
  const isKnown = lowK !== undefined && highK !== undefined;
  const uncertainK = isKnown ? (highK - lowK) / 2 : 0;
  if (uncertainK > fail.value) return { uncertainK };
  const offK = k - targetK;
  const sureK = isKnown ? Math.max(lowK - targetK, targetK - highK) : 0;
  if (Math.abs(offK) > fail.value && sureK > suspect.value) return { offK, outcome: 'fail', bound: fail };
  return { offK, outcome: Math.abs(offK) > suspect.value ? 'suspect' : 'pass', bound: suspect };
}
