import type { Facts } from '../../records/tables/facts.ts';
import { smallestStep } from '../../traces/gauge-grain.ts';
import type { VacuumSeries } from '../../traces/vacuum-series.ts';
import type { VacuumMaterial } from '../job-material.ts';
import { longestGap } from '../longest-gap.ts';
import { driftRate } from './drift-rate.ts';
import type { FoundIsolation } from './found-isolation.ts';
import { levelBefore } from './level-before.ts';
import { partOf, partsAt } from './make-up.ts';
import { plateau } from './plateau.ts';
import { type RiseFit, riseFit } from './rise-fit.ts';
import { riseOutlook } from './rise-outlook.ts';
import { type RiseSamples, riseSamples } from './rise-samples.ts';
import { riseShape } from './rise-shape.ts';
import { smallestSeen } from './smallest-seen.ts';

// Common practice, no source; set on simulated fleets (tests/truth).
/** A range of leaks that are as likely as each other has this share of the gauge's accuracy on top. */
const onTop = 0.7;
/** What of the equalisation comes within so many seconds is a jump … */
const jumpS = 10;
/** … and is seen where the gauge was read that often. */
const seenS = 10;
/** Where the readings leave out more than this share of the test in one piece, nothing is fitted. */
const mostUnseenShare = 0.5;

/** What a rise is made of, and what it could not have shown. */
export function riseFacts(
  series: VacuumSeries,
  isolation: FoundIsolation,
  material: VacuumMaterial,
  accuracyRatio: number,
): Partial<Facts> {
  const { phase, isolationPa } = isolation;
  const { job } = material;
  const fitted = isolationFit(series, isolation, material);
  if (fitted === undefined) return { rise_shape: 'undecided' };
  const { samples, fit } = fitted;
  const { makeUp } = fit;
  const lastedS = series.elapsedS[isolation.lastIndex] - phase.startS;
  const [settling, saturating] = [partOf(makeUp, 'settling'), partOf(makeUp, 'saturating')];
  const shape = riseShape(fit, {
    isolationPa,
    levelLimitPa: job?.rise_limit_kind === 'level' ? job.rise_limit_pa : undefined,
    accuracyRatio,
    noisePa: samples.noiseRatio * fit.meanPa * Math.sqrt((8 * fit.scale) / samples.independent),
  });
  const driftPaPerS = driftRate(fit.testS, fit.meanPa, material.line);
  const seen = smallestSeen(fit.sight, driftPaPerS);
  const jumps = phase.fromIndex > 0 && series.elapsedS[phase.fromIndex + 1] - phase.startS <= seenS;
  return {
    rise_shape: shape,
    rise_model: modelOf(fit),
    ...leakFacts(fit, accuracyRatio, driftPaPerS),
    smallest_leak_seen_pa_per_s: seen.leakPaPerS,
    smallest_rise_seen_pa_per_s: seen.risePaPerS,
    leak_rise_pa: makeUp.leakPaPerS * lastedS,
    leak_rise_low_pa: fit.leak.low * lastedS,
    leak_rise_high_pa: fit.leak.high * lastedS,
    vapour_rise_pa: partsAt(makeUp, ['saturating', 'tail', 'slow'], lastedS),
    settling_rise_pa: partsAt(makeUp, ['settling'], lastedS),
    ...(jumps
      ? { isolation_jump_pa: settling === undefined ? 0 : settling.size * (1 - Math.exp(-jumpS / settling.timeS)) }
      : {}),
    rise_noise_ratio: samples.noiseRatio,
    ...(saturating === undefined ? {} : { rise_time_constant_s: saturating.timeS }),
    ...(shape === 'moisture' || shape === 'mixed' ? plateauFacts(samples, fit, accuracyRatio) : {}),
  };
}

/** The readings of an isolation taken together, and what was fitted to them; undefined where they are too few, or leave out too much. */
export function isolationFit(
  series: VacuumSeries,
  { phase, lastIndex, isolationPa, pumpedS }: FoundIsolation,
  { job, gauge, line }: Pick<VacuumMaterial, 'job' | 'gauge' | 'line'>,
): { samples: RiseSamples; fit: RiseFit } | undefined {
  const lastedS = series.elapsedS[lastIndex] - series.elapsedS[phase.fromIndex];
  if (longestGap(series.elapsedS, phase.fromIndex, lastIndex) > mostUnseenShare * lastedS) return undefined;
  const stepPa = job?.gauge_step_pa ?? gauge?.step_pa ?? smallestStep(series.vacuumPa);
  const before = phase.fromIndex === 0 ? undefined : levelBefore(series, phase.fromIndex, isolationPa, stepPa);
  const samples = riseSamples(series, phase.fromIndex + 1, lastIndex, { startS: phase.startS, before, stepPa });
  if (samples === undefined) return undefined;
  const fit = riseFit(samples, riseOutlook(pumpedS, line));
  return fit === undefined ? undefined : { samples, fit };
}

function leakFacts({ leak, likelyLeak, makeUp }: RiseFit, accuracyRatio: number, driftPaPerS: number): Partial<Facts> {
  const { leakPaPerS } = makeUp;
  // An end of the fit's interval may be as likely as its middle: then the gauge's accuracy comes on top of it.
  const widened = (likely: number, end: number) =>
    Math.max(
      Math.hypot(end - likely, accuracyRatio * likely, 1.96 * driftPaPerS),
      Math.abs(end - likely) + onTop * accuracyRatio * end,
    );
  const low = leak.low > 0 ? Math.max(0, likelyLeak.low - widened(likelyLeak.low, leak.low)) : 0;
  const high = likelyLeak.high + widened(likelyLeak.high, leak.high);
  return {
    leak_pa_per_s: leakPaPerS,
    leak_low_pa_per_s: Math.min(low, leakPaPerS),
    leak_high_pa_per_s: Math.max(high, leakPaPerS),
  };
}

function modelOf({ makeUp }: RiseFit): Facts['rise_model'] {
  const saturates = (partOf(makeUp, 'saturating') ?? partOf(makeUp, 'slow')) !== undefined;
  const leak = makeUp.leakPaPerS > 0 ? 'leak' : undefined;
  const tail = partOf(makeUp, 'tail') === undefined ? undefined : 'tail';
  const words = [leak, saturates ? 'saturating' : undefined, tail].filter((word) => word !== undefined);
  return (words.length === 0 ? 'flat' : words.join('-')) as Facts['rise_model'];
}

function plateauFacts(samples: RiseSamples, { makeUp, scale }: RiseFit, accuracyRatio: number): Partial<Facts> {
  const found = plateau(samples, makeUp, scale);
  if (found === undefined) return {};
  const { pa, lowPa, highPa } = found;
  const accuracyPa = accuracyRatio * pa;
  return {
    plateau_pa: pa,
    plateau_low_pa: Math.max(0, pa - Math.hypot(pa - lowPa, accuracyPa)),
    ...(Number.isFinite(highPa) ? { plateau_high_pa: pa + Math.hypot(highPa - pa, accuracyPa) } : {}),
  };
}
