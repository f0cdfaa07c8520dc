import { pressureUncertainty } from '../../src/facts/run-test/run-uncertainty.ts';
import { saturationPa } from '../../src/facts/run-test/refrigerant-facts.ts';
import { fastSaturationOf } from '../../src/physics/tables/fast-saturation-of.ts';
import { type Claim, type ClaimCase, claim } from './claim.ts';
import type { RunningTrial } from './running-trial.ts';

/** Superheat and subcooling are to be as near as this where clamps are good to 0.1 K [K]. */
const nearK = 0.15;
/** Refrigerants that differ by more standard uncertainties in pressure are to be told apart. */
const apart = 4;

/** What run tests claim, by how they were made, beside the goals. */
export function runningClaims(
  usual: readonly RunningTrial[],
  good: readonly RunningTrial[],
  other: readonly RunningTrial[],
): Claim[] {
  const read = (trials: readonly RunningTrial[], of: Difference) =>
    trials.filter((one) => one.facts[`${of}_k`] !== undefined && trueDifference(one, of) !== undefined);
  const sound = usual.filter(({ log }) => log.truth.pattern !== 'non-condensables');
  const told = sound.filter(({ facts }) => facts.likely_refrigerant_ratio !== undefined);
  const far = other.filter(isFarApart);
  const judged = usual.filter(({ facts, log }) => facts.run_pattern !== undefined && log.truth.upset === undefined);
  const ofPattern = (pattern: string) => judged.filter(({ log }) => log.truth.pattern === pattern);
  const covered = { least: 0.9 };
  return [
    claim('superheat within 0.15 K, good clamps and gauges', read(good, 'superheat').map(near('superheat')), {
      least: 0.95,
    }),
    claim('subcooling within 0.15 K, the same', read(good, 'subcooling').map(near('subcooling')), { least: 0.95 }),
    claim(
      'superheat interval holds the truth, usual clamps and gauges',
      read(usual, 'superheat').map(cover('superheat')),
      covered,
    ),
    claim('subcooling interval holds the truth, the same', read(usual, 'subcooling').map(cover('subcooling')), covered),
    claim('another refrigerant found, pressures more than 4 standard uncertainties apart', far.map(foundCase), {
      least: 0.95,
    }),
    claim('… all pairs', other.filter(({ facts }) => facts.refrigerant_seen !== undefined).map(foundCase)),
    claim('another refrigerant seen where there is none', told.map(alarmCase), { most: 0.005 }),
    claim('pattern named where nothing is wrong', ofPattern('none').map(invented)),
    ...['low-charge', 'overcharge', 'restriction', 'poor-airflow', 'non-condensables'].flatMap((pattern) => [
      claim(`pattern ${pattern} named`, ofPattern(pattern).map(named)),
      claim('… another one named', ofPattern(pattern).map(misnamed)),
    ]),
  ];
}

type Difference = 'superheat' | 'subcooling';

/** The mean over the window that was found, free of instruments [K]. */
function trueDifference({ plan, log, facts }: RunningTrial, of: Difference): number | undefined {
  const { steady_start_s: startS, steady_end_s: endS } = facts;
  if (startS === undefined || endS === undefined || plan.options.heating) return undefined;
  if (log.truth.upset !== undefined) return undefined;
  const course = of === 'superheat' ? log.trueSuperheatsK : log.trueSubcoolingsK;
  const within = course.filter((_, at) => log.readings.elapsedS[at] >= startS && log.readings.elapsedS[at] <= endS);
  return within.reduce((sum, kelvin) => sum + kelvin, 0) / within.length;
}

function differenceText(trial: RunningTrial, of: Difference): string {
  const { facts, plan } = trial;
  return `${of}: true ${trueDifference(trial, of)?.toFixed(2)} K, found ${facts[`${of}_k`]?.toFixed(2)} K (${facts[`${of}_low_k`]?.toFixed(2)} to ${facts[`${of}_high_k`]?.toFixed(2)}), ${plan.options.metering}`;
}

function near(of: Difference): (trial: RunningTrial) => ClaimCase {
  return (trial) => {
    const offK = Math.abs((trial.facts[`${of}_k`] ?? 0) - (trueDifference(trial, of) ?? 0));
    return { plan: trial.plan, value: offK <= nearK, badness: offK - nearK, says: differenceText(trial, of) };
  };
}

function cover(of: Difference): (trial: RunningTrial) => ClaimCase {
  return (trial) => {
    const trueK = trueDifference(trial, of) ?? 0;
    const { [`${of}_low_k` as const]: low = 0, [`${of}_high_k` as const]: high = 0 } = trial.facts;
    const outsideK = Math.max(low - trueK, trueK - high);
    return { plan: trial.plan, value: outsideK <= 0, badness: outsideK, says: differenceText(trial, of) };
  };
}

/** Whether the two refrigerants differ by so much at the temperature and with the gauge of the rest that was found. */
function isFarApart({ plan, facts }: RunningTrial): boolean {
  const { rest_k: restK, rest_pa: restPa, rest_expected_pa: expectedPa, rest_deviation: deviation } = facts;
  const { refrigerant, madeFor = refrigerant } = plan.options;
  if (restK === undefined || restPa === undefined || expectedPa === undefined || !deviation) return false;
  const trulyPa = saturationPa(fastSaturationOf(refrigerant), restK);
  const recordPa = saturationPa(fastSaturationOf(madeFor), restK);
  const uncertaintyPa = Math.abs((restPa - expectedPa) / deviation);
  const gaugePa = pressureUncertainty({ pressure_accuracy_ratio: 0.01 }, 'liquid', restPa) / Math.SQRT2;
  return Math.abs(trulyPa - recordPa) > apart * Math.max(uncertaintyPa, gaugePa);
}

function refrigerantText({ plan, facts }: RunningTrial): string {
  const { refrigerant, madeFor } = plan.options;
  return `${madeFor} on record, ${refrigerant} in it, found ${facts.likely_refrigerant ?? 'nothing'} (${facts.likely_refrigerant_ratio?.toFixed(3)}) by ${facts.refrigerant_seen}, ${facts.rest_deviation?.toFixed(1)} standard uncertainties off`;
}

function foundCase(trial: RunningTrial): ClaimCase {
  const value = trial.facts.likely_refrigerant !== undefined;
  return {
    plan: trial.plan,
    value,
    badness: value ? 0 : Math.abs(trial.facts.rest_deviation ?? 1),
    says: refrigerantText(trial),
  };
}

function alarmCase(trial: RunningTrial): ClaimCase {
  const value = trial.facts.likely_refrigerant !== undefined;
  return { plan: trial.plan, value, badness: value ? 1 : 0, says: refrigerantText(trial) };
}

function patternText({ log, facts }: RunningTrial): string {
  return `true ${log.truth.pattern}, named ${facts.run_pattern} (${facts.run_pattern_ratio?.toFixed(2)}): ${facts.run_signs}`;
}

function invented(trial: RunningTrial): ClaimCase {
  const { run_pattern: pattern } = trial.facts;
  const value = pattern !== 'none' && pattern !== 'unclear';
  return {
    plan: trial.plan,
    value,
    badness: value ? (trial.facts.run_pattern_ratio ?? 1) : 0,
    says: patternText(trial),
  };
}

function named(trial: RunningTrial): ClaimCase {
  return { plan: trial.plan, value: trial.facts.run_pattern === trial.log.truth.pattern, badness: 0, says: '' };
}

function misnamed(trial: RunningTrial): ClaimCase {
  const { run_pattern: pattern = 'unclear' } = trial.facts;
  const value = pattern !== trial.log.truth.pattern && pattern !== 'unclear' && pattern !== 'none';
  return {
    plan: trial.plan,
    value,
    badness: value ? (trial.facts.run_pattern_ratio ?? 1) : 0,
    says: patternText(trial),
  };
}
