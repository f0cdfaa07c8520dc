import type { Facts } from '../../records/tables/facts.ts';
import {
  patternShifts,
  type RunPattern,
  type RunSign,
  runPatterns,
  signNames,
  soundSigns,
  usualPatterns,
  usualSubcooling,
  valveSuperheat,
} from './pattern-signs.ts';

/** A reading beside what a sound system shows. */
interface Sign {
  readonly sign: RunSign;
  /** What was read less what is usual [K, or a ratio]. */
  readonly off: number;
  /** Standard deviation among sound systems, the uncertainty of the reading included. */
  readonly spread: number;
}

// Common practice, no source; set on simulated systems.
/** Sizes of a pattern that are tried, as ratios of the usual one; all as likely. */
const sizes = [0.35, 0.6, 0.85, 1.1, 1.5, 2.1] as const;
/** What a pattern does to a reading differs by so much of it from system to system. */
const unlike = 0.35;
/** A pattern is named where it is so likely. */
const namedProbability = 0.7;
const mostProbability = 0.99;
/** … and none where nothing else is likely: beside few readings it is as likely as it was before they were read. */
const noneProbability = 0.85;
/** A reading speaks where it makes a pattern so much likelier or less likely, as a logarithm. */
const speaking = 0.7;
/** Of one reading alone no pattern is told. */
const fewestSigns = 2;

/** What the readings over the steady window look like together: the probability of each pattern, and what speaks for and against. */
export function runPatternFacts(facts: Partial<Facts>): Partial<Facts> {
  const kind = facts.metering_kind;
  const signs = signsOf(facts);
  if (kind === undefined || signs.length < fewestSigns) return {};
  const weights = runPatterns.map((pattern) => usualPatterns[pattern] * likelihood(signs, pattern, kind));
  const sum = weights.reduce((all, weight) => all + weight, 0);
  if (!(sum > 0)) return { run_pattern: 'unclear' };
  const probabilities = Object.fromEntries(runPatterns.map((pattern, nth) => [pattern, weights[nth] / sum]));
  const [best] = runPatterns.toSorted((a, b) => probabilities[b] - probabilities[a]);
  const spoken = best === 'none' ? runPatterns.toSorted((a, b) => probabilities[b] - probabilities[a])[1] : best;
  return {
    run_pattern: probabilities[best] >= (best === 'none' ? noneProbability : namedProbability) ? best : 'unclear',
    // No table of signs is surer than that.
    run_pattern_ratio: Math.min(mostProbability, probabilities[best]),
    run_patterns: JSON.stringify(Object.fromEntries(Object.entries(probabilities).map(([k, v]) => [k, rounded(v)]))),
    run_signs: JSON.stringify(signsFor(signs, spoken, kind)),
  };
}

/** The readings that there are, each beside what a sound system would show. */
function signsOf(facts: Partial<Facts>): Sign[] {
  const { run_dew_k: dewK, run_bubble_k: bubbleK, run_indoor_k: indoorK, run_outdoor_k: outdoorK } = facts;
  const { superheat_k: superheatK, subcooling_k: subcoolingK, run_split_k: splitK } = facts;
  const { run_indoor_wet_bulb_k: wetBulbK } = facts;
  const half = (low: number | undefined, high: number | undefined) => ((high ?? 0) - (low ?? 0)) / (2 * 1.96);
  const signs: Sign[] = [];
  const add = (sign: RunSign, off: number | undefined, uncertainty: number) => {
    if (off === undefined || Number.isNaN(off)) return;
    signs.push({ sign, off: off - soundSigns[sign].usual, spread: Math.hypot(soundSigns[sign].spread, uncertainty) });
  };
  add('evaporating', dewK === undefined || indoorK === undefined ? undefined : indoorK - dewK, 0.5);
  // Behind a metering device outdoors the liquid line is on the low side.
  const isHigh = facts.liquid_line_phase !== 'two-phase';
  add('condensing', !isHigh || bubbleK === undefined || outdoorK === undefined ? undefined : bubbleK - outdoorK, 0.7);
  const superheatU = half(facts.superheat_low_k, facts.superheat_high_k);
  const isFixed = facts.metering_kind === 'fixed';
  const aimK = facts.target_superheat_k ?? (isFixed ? undefined : valveSuperheat.usualK);
  const aimU = facts.target_superheat_k === undefined ? valveSuperheat.spreadK : 0;
  if (superheatK !== undefined && aimK !== undefined) add('superheat', superheatK - aimK, Math.hypot(superheatU, aimU));
  const subcoolingAimK = facts.target_subcooling_k ?? usualSubcooling.usualK;
  const subcoolingU = half(facts.subcooling_low_k, facts.subcooling_high_k);
  if (subcoolingK !== undefined)
    add(
      'subcooling',
      subcoolingK - subcoolingAimK,
      Math.hypot(subcoolingU, facts.target_subcooling_k === undefined ? usualSubcooling.spreadK : 0),
    );
  // The drier the air, the more of the cooling is a fall of its temperature.
  const drynessK = wetBulbK === undefined || indoorK === undefined ? undefined : indoorK - wetBulbK - dryAirK;
  add(
    'split',
    splitK === undefined ? undefined : splitK - splitByDryness * (drynessK ?? 0),
    drynessK === undefined ? 1.5 : 0.3,
  );
  const { rest_pa: restPa, rest_expected_pa: expectedPa, rest_deviation: deviation } = facts;
  if (restPa !== undefined && expectedPa !== undefined && deviation)
    add('rest', restPa / expectedPa - 1, Math.abs((restPa / expectedPa - 1) / deviation));
  return signs;
}

/** Return air is drier than its wet bulb by so much at rating conditions [K], and the split goes with it by this ratio. */
const dryAirK = 7.3;
const splitByDryness = 0.7;

function likelihood(signs: readonly Sign[], pattern: RunPattern, kind: 'fixed' | 'valve'): number {
  const tried = pattern === 'none' ? [0] : sizes;
  return (
    tried.reduce(
      (sum, size) => sum + signs.reduce((product, sign) => product * density(sign, pattern, kind, size), 1),
      0,
    ) / tried.length
  );
}

function density({ sign, off, spread }: Sign, pattern: RunPattern, kind: 'fixed' | 'valve', size: number): number {
  const shift = patternShifts[kind][pattern][sign] * size;
  const deviation = Math.hypot(spread, unlike * shift);
  return Math.exp(-((off - shift) ** 2) / (2 * deviation ** 2)) / deviation;
}

/** What each reading says of a pattern against a sound system. */
function signsFor(signs: readonly Sign[], pattern: RunPattern, kind: 'fixed' | 'valve') {
  const score = (sign: Sign) => {
    const all = sizes.reduce((sum, size) => sum + density(sign, pattern, kind, size), 0) / sizes.length;
    return Math.log(all / density(sign, 'none', kind, 0));
  };
  return signs.map((sign) => {
    const says = score(sign);
    return {
      reading: signNames[sign.sign],
      off: rounded(sign.off),
      for: says >= speaking ? pattern : says <= -speaking ? 'none' : '',
    };
  });
}

function rounded(value: number): number {
  return Number(value.toPrecision(3));
}
