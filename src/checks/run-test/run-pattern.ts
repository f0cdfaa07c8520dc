import { z } from 'zod';
import type { Facts } from '../../records/tables/facts.ts';
import { type CheckExample, check, limit } from '../check.ts';
import { conditionMessages, leastOutdoorK, steadyFacts } from '../run-conditions.ts';
import { runExamples, runMessages, runProblem } from '../run-problem.ts';

const signs = JSON.stringify([
  { reading: 'suction pressure', off: 5, for: 'low-charge' },
  { reading: 'subcooling', off: -4.8, for: 'low-charge' },
  { reading: 'air temperature split', off: -0.3, for: 'none' },
]);
const metered = { ...steadyFacts, metering_kind: 'valve' } as const;
const seen = { ...metered, run_pattern_ratio: 0.94, run_signs: signs } as const;
const right = {
  charge_deviation_kg: 0.01,
  charge_deviation_low_kg: -0.02,
  charge_deviation_high_kg: 0.04,
  charge_target_kg: 1.5,
};
const short = {
  ...right,
  charge_deviation_kg: -0.3,
  charge_deviation_low_kg: -0.33,
  charge_deviation_high_kg: -0.27,
};
const patterns = ['low-charge', 'overcharge', 'restriction', 'poor-airflow', 'non-condensables'] as const;
const words: Record<(typeof patterns)[number], string> = {
  'low-charge': 'too little refrigerant',
  overcharge: 'too much refrigerant',
  restriction: 'a restriction in the liquid line or at the metering device',
  'poor-airflow': 'too little air over the indoor coil',
  'non-condensables': 'air or nitrogen in the system',
};
const speaks = '{spoken_for} for it, {spoken_against} against it';

/** What all readings of the run together look like, and whether the weigh-in says the same. */
export const runPattern = check({
  id: 'run-pattern',
  group: 'run-test',
  revisit: 'running',
  question: 'Do the readings of the run, taken together, look like a fault?',
  needs: ['run_pattern', 'run_pattern_ratio', 'run_signs'],
  limits: {
    least_outdoor_k: leastOutdoorK,
    sure_ratio: limit({
      description: 'Probability from which a pattern fails; a likelier one than not is suspect',
      schema: z.number().min(0.5).max(1),
      default: 0.95,
      source: 'common-practice',
    }),
    charge_ratio: limit({
      description:
        'Deviation of the weighed charge, as a ratio of the target, from which it contradicts a run that looks like no fault; half of it agrees with a run that does',
      schema: z.number().positive().max(1),
      default: 0.08,
      source: 'common-practice',
    }),
    seen_ratio: limit({
      description: 'Probability of the pattern that the weigh-in would make, below which the readings speak against it',
      schema: z.number().positive().max(0.5),
      default: 0.01,
      source: 'common-practice',
    }),
  },
  messages: {
    ...runMessages,
    none: 'The readings together look like no fault ({pattern_ratio}).',
    'none-though-charge-off':
      'The readings together look like no fault ({pattern_ratio}), though by weight the charge is {off_kg} {off_way} its target: the weigh-in and the run disagree, so look at both.',
    ...(Object.fromEntries(
      patterns.map((pattern) => [
        pattern,
        `The readings together look like ${words[pattern]} ({pattern_ratio}): ${speaks}.`,
      ]),
    ) as Record<(typeof patterns)[number], string>),
    'charge-agrees': `The readings together look like {pattern_words} ({pattern_ratio}): ${speaks}. The weigh-in, {off_kg} {off_way} its target, says the same.`,
    'charge-disagrees': `The readings together look like {pattern_words} ({pattern_ratio}): ${speaks}. The weigh-in ({off_kg} {off_way} its target) does not go with it: look for a leak, at what was weighed, or for another fault.`,
    unclear: 'The readings together are not clear: likeliest {pattern_words} ({pattern_ratio}).',
    'no-metering': 'The record does not say what meters, and what each pattern looks like goes by it.',
    'too-cold': conditionMessages['too-cold'],
    'too-few': 'Too few readings of the run are there to tell a pattern.',
    'free-speed': 'The compressor chose its own speed, no fixed test mode is on record, so no pattern is told.',
  },
  teach:
    'One reading is no diagnosis. Write down suction, liquid, both lines, the air in and out and the air outdoors, all in one minute, and ask of each fault which readings speak for it and which against it, before any refrigerant is touched.',
  references: ['common-practice'],
  examples: [
    { name: 'nothing wrong', facts: { ...seen, run_pattern: 'none' }, outcome: 'pass', message: 'none' },
    {
      name: 'nothing wrong, though a fifth is missing by weight',
      facts: {
        ...seen,
        run_pattern: 'none',
        run_patterns: '{"none":0.97,"low-charge":0.001}',
        ...short,
      },
      outcome: 'suspect',
      message: 'none-though-charge-off',
    },
    ...patterns.map(
      (pattern): CheckExample<(typeof patterns)[number]> => ({
        name: pattern,
        facts: { ...seen, run_pattern: pattern },
        outcome: 'suspect',
        message: pattern,
      }),
    ),
    {
      name: 'short by both',
      facts: {
        ...seen,
        run_pattern: 'low-charge',
        run_pattern_ratio: 0.97,
        ...short,
      },
      outcome: 'fail',
      message: 'charge-agrees',
    },
    {
      name: 'likely, with as much against it as for it',
      facts: {
        ...seen,
        run_pattern: 'low-charge',
        run_pattern_ratio: 0.97,
        run_signs: JSON.stringify([
          { reading: 'suction pressure', off: 5, for: 'low-charge' },
          { reading: 'subcooling', off: -0.2, for: 'none' },
        ]),
      },
      outcome: 'suspect',
      message: 'low-charge',
    },
    {
      name: 'short by the run, right by weight',
      facts: { ...seen, run_pattern: 'low-charge', run_pattern_ratio: 0.99, ...right },
      outcome: 'suspect',
      message: 'charge-disagrees',
    },
    {
      name: 'short by the run, and perhaps by weight',
      facts: { ...seen, run_pattern: 'low-charge', ...right, charge_deviation_low_kg: -0.2 },
      outcome: 'suspect',
      message: 'low-charge',
    },
    {
      name: 'on a cold day',
      facts: { ...seen, run_pattern: 'non-condensables', run_outdoor_k: 275 },
      outcome: 'not-evaluated',
      message: 'too-cold',
    },
    {
      name: 'this or that',
      facts: { ...seen, run_pattern: 'unclear', run_pattern_ratio: 0.5, run_patterns: '{"none":0.5,"overcharge":0.4}' },
      outcome: 'not-evaluated',
      message: 'unclear',
    },
    { name: 'two gauges alone', facts: metered, outcome: 'not-evaluated', message: 'too-few' },
    {
      name: 'no metering device on record',
      facts: steadyFacts,
      outcome: 'not-evaluated',
      message: 'no-metering',
    },
    {
      name: 'a compressor at its own speed',
      facts: { ...seen, run_pattern: 'none', run_speed: 'free' },
      outcome: 'not-evaluated',
      message: 'free-speed',
    },
    ...runExamples,
  ],
  judge(facts, { sure_ratio, charge_ratio, seen_ratio, least_outdoor_k }) {
    const problem = runProblem(facts);
    if (problem !== undefined) return problem;
    const { run_pattern: pattern, run_pattern_ratio = 0, charge_deviation_kg } = facts;
    const { run_outdoor_k: outdoorK } = facts;
    if (outdoorK !== undefined && outdoorK < least_outdoor_k.value) {
      const cold = {
        outdoor_k: outdoorK,
        least_outdoor_k: least_outdoor_k.value,
        outdoor_source: least_outdoor_k.source,
      };
      return { outcome: 'not-evaluated', message: 'too-cold', evidence: cold };
    }
    if (facts.run_speed === 'free') return { outcome: 'not-evaluated', message: 'free-speed', evidence: {} };
    if (facts.metering_kind === undefined) return { outcome: 'not-evaluated', message: 'no-metering', evidence: {} };
    if (pattern === undefined) return { outcome: 'not-evaluated', message: 'too-few', evidence: {} };
    const likeliest = pattern === 'unclear' ? likeliestOf(facts) : pattern;
    const evidence = {
      pattern,
      pattern_ratio: run_pattern_ratio,
      pattern_words: likeliest === 'none' ? 'no fault' : words[likeliest],
      patterns: facts.run_patterns,
      ...spoken(facts),
      deviation_kg: charge_deviation_kg,
      off_kg: Math.abs(charge_deviation_kg ?? 0),
      off_way: (charge_deviation_kg ?? 0) < 0 ? 'below' : 'above',
      sure_source: sure_ratio.source,
    };
    const result = { value: run_pattern_ratio, limit: sure_ratio.value, evidence };
    if (pattern === 'unclear') return { ...result, outcome: 'not-evaluated', message: 'unclear' };
    const weighed = weighedDeviation(facts);
    if (pattern === 'none') {
      const isOff = weighed !== undefined && Math.max(weighed.lowRatio, -weighed.highRatio) > charge_ratio.value;
      const wouldShow =
        isOff && probabilityOf(facts, weighed.lowRatio > 0 ? 'overcharge' : 'low-charge') < seen_ratio.value;
      return wouldShow
        ? { ...result, outcome: 'suspect', message: 'none-though-charge-off' }
        : { ...result, outcome: 'pass', message: 'none' };
    }
    // However likely, nothing fails that as many readings speak against.
    const against = signsOf(facts, false).length;
    const isContested = against > 0 && against >= signsOf(facts, true).length;
    const outcome = run_pattern_ratio >= sure_ratio.value && !isContested ? 'fail' : 'suspect';
    if (weighed === undefined || (pattern !== 'low-charge' && pattern !== 'overcharge'))
      return { ...result, outcome, message: pattern };
    // As far as the weigh-in may be off the way of the pattern, and is if its interval lies there.
    const isShort = pattern === 'low-charge';
    const [surely, possibly] = isShort
      ? [-weighed.highRatio, -weighed.lowRatio]
      : [weighed.lowRatio, weighed.highRatio];
    if (surely > 0 && possibly > charge_ratio.value / 2) return { ...result, outcome, message: 'charge-agrees' };
    if (possibly < charge_ratio.value / 2) return { ...result, outcome: 'suspect', message: 'charge-disagrees' };
    return { ...result, outcome, message: pattern };
  },
});

/** The weighed deviation's interval as ratios of the target; undefined where there is none. */
function weighedDeviation({
  charge_deviation_low_kg: lowKg,
  charge_deviation_high_kg: highKg,
  charge_target_kg: targetKg = 0,
}: Partial<Facts>): { lowRatio: number; highRatio: number } | undefined {
  if (lowKg === undefined || highKg === undefined || !(targetKg > 0)) return undefined;
  return { lowRatio: lowKg / targetKg, highRatio: highKg / targetKg };
}

function probabilityOf({ run_patterns: json }: Partial<Facts>, pattern: string): number {
  return json === undefined ? 1 : ((JSON.parse(json) as Record<string, number>)[pattern] ?? 1);
}

function likeliestOf({ run_patterns: json }: Partial<Facts>): 'none' | (typeof patterns)[number] {
  if (json === undefined) return 'none';
  const [best] = Object.entries(JSON.parse(json) as Record<string, number>).toSorted(([, a], [, b]) => b - a);
  return patterns.find((pattern) => pattern === best?.[0]) ?? 'none';
}

/** The readings that speak for the pattern, or against it. */
function signsOf({ run_signs: json }: Partial<Facts>, isFor: boolean): string[] {
  const all = json === undefined ? [] : (JSON.parse(json) as { reading: string; for: string }[]);
  return all.filter((sign) => sign.for !== '' && (sign.for !== 'none') === isFor).map(({ reading }) => reading);
}

/** The same in words. */
function spoken(facts: Partial<Facts>): { spoken_for: string; spoken_against: string } {
  const list = (readings: readonly string[]) =>
    readings.length === 0 ? 'nothing speaks' : `${readings.join(', ')} ${readings.length > 1 ? 'speak' : 'speaks'}`;
  return { spoken_for: list(signsOf(facts, true)), spoken_against: list(signsOf(facts, false)) };
}
