import type { MakeUp } from './make-up.ts';
import type { RiseOutlook } from './rise-basis.ts';
import { chosenPiece, type Interval, type LeakShare, leaksWithin, leastByShare, leastMisfit } from './rise-pieces.ts';
import { dropAt95, riseProfile } from './rise-profile.ts';
import type { RiseSamples } from './rise-samples.ts';
import { type Sight, sight } from './sight.ts';

/** What a rise turned out to be made of, and what else it could be. */
export interface RiseFit {
  /** The parts that the data ask for. */
  readonly makeUp: MakeUp;
  /** Length of the test [s]. */
  readonly testS: number;
  /** Mean of the pressure, weighted [Pa]. */
  readonly meanPa: number;
  /** Whether moisture shows. */
  readonly isWet: boolean;
  /** By the fit alone: the leak of every make-up that explains the readings nearly as well, and all but as well [Pa/s]. */
  readonly leak: Interval;
  readonly likelyLeak: Interval;
  /** How much worse the best make-up fits whose leak makes up that share of what came in [misfit over its scale]. */
  readonly against: Readonly<Record<LeakShare, number>>;
  readonly sight: Sight;
  /** Misfit that counts as one: the readings scatter about the best make-up by so much [variance ratio]. */
  readonly scale: number;
}

// Common practice, no source; set on simulated fleets (tests/truth).
/** Leaks whose misfit is so little above the best are as likely as it. */
const likely = 0.4;
/** As many degrees of freedom stand for what is known of the scatter beforehand. */
const priorDegrees = 12;
const leastScale = 0.8;
/** Parameters that a fit takes up, about. */
const usualParameters = 4;

/**
 * Fits a rise.
 *
 * @returns undefined where nothing can be made of the samples
 */
export function riseFit(samples: RiseSamples, outlook: RiseOutlook): RiseFit | undefined {
  const profile = riseProfile(samples, outlook);
  const { pieces, columns, isWet, meanPa } = profile;
  const { testS } = columns.basis;
  const least = leastMisfit(pieces);
  const degrees = Math.max(1, samples.sinceS.length - usualParameters);
  const scale = Math.max(leastScale, (least + priorDegrees) / (degrees + priorDegrees));
  const chosen = chosenPiece(pieces, scale, samples.independent);
  if (chosen === undefined) return undefined;
  const makeUp = profile.makeUpOf(chosen.piece, chosen.leakPaPerS);
  const { leakPaPerS } = makeUp;
  const byShare = leastByShare(pieces, testS);
  const above = (misfit: number) => (misfit - least) / scale;
  return {
    makeUp,
    testS,
    meanPa,
    isWet,
    leak: including(leaksWithin(pieces, least + dropAt95 * scale), leakPaPerS),
    likelyLeak: leaksWithin(pieces, least + likely * scale),
    against: { none: above(byShare.none), part: above(byShare.part), all: above(byShare.all) },
    sight: sight(samples, profile, makeUp, scale),
    scale,
  };
}

/** An interval that holds a value: what has few parts may fit worse than the interval allows. */
function including({ low, high }: Interval, value: number): Interval {
  return { low: Math.min(low, value), high: Math.max(high, value) };
}
