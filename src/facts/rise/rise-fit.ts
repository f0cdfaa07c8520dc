import type { RiseOutlook, RisePart } from './rise-basis.ts';
import { dropAt95, type MakeUp, type RisePiece, type RiseProfile, riseProfile } from './rise-profile.ts';
import type { RiseSamples } from './rise-samples.ts';
import { visibleLeak } from './visible-leak.ts';

/** A value with its 95 % interval. */
export interface Interval {
  readonly low: number;
  readonly high: number;
}

/** What a rise turned out to be made of. */
export interface RiseFit {
  /** The parts that the data ask for, and how much each brought over the test. */
  readonly leakPaPerS: number;
  readonly vapourRisePa: number;
  readonly settlingRisePa: number;
  /** Time constants [s]; 0 where that part is not asked for. */
  readonly saturatingS: number;
  readonly settlingS: number;
  /** By the fit alone: every mixture of parts that explains the readings nearly as well. */
  readonly leak: Interval;
  /** How much worse the best mixture fits whose leak makes up that share of what came in [misfit over its scale]. */
  readonly against: Readonly<Record<Share, number>>;
  /** The range of leaks that fit all but as well as the best. */
  readonly likelyLeak: Interval;
  /** The leak that four such tests of five would have told from everything else [Pa/s]. */
  readonly visibleLeakPaPerS: number;
  readonly makeUp: MakeUp;
  readonly testS: number;
  readonly profile: RiseProfile;
  /** Misfit that counts as one: the readings scatter about the best mixture by so much [variance ratio]. */
  readonly scale: number;
}

/** Leak as a share of leak and vapour together: hardly any, part, nearly all. */
export type Share = 'none' | 'part' | 'all';

// Common practice, no source; set on simulated fleets (tests/truth).
/** A share below this is hardly any; above one less it, nearly all. */
export const smallShare = 0.2;
/** Leaks whose misfit is so little above the best are as likely as it. */
const likely = 0.4;
/** As many degrees of freedom stand for what is known of the scatter beforehand. */
const priorDegrees = 12;
const leastScale = 0.8;
/** What a part costs [parameters]: outgassing and water from a dead end are taken only where a leak does clearly worse. */
const parametersOf: Readonly<Record<RisePart, number>> = { leak: 1, saturating: 2, settling: 1.5, tail: 2, slow: 2 };

/** Fits a rise: what it is made of, and what else it could be. */
export function riseFit(samples: RiseSamples, outlook: RiseOutlook): RiseFit | undefined {
  const profile = riseProfile(samples, outlook);
  const { pieces, basis } = profile;
  const { testS } = basis;
  let least = Number.POSITIVE_INFINITY;
  for (const piece of pieces) {
    const at = bestWithin(piece);
    if (at !== undefined) least = Math.min(least, misfitAt(piece, at));
  }
  if (!Number.isFinite(least)) return undefined;
  const degrees = Math.max(1, samples.sinceS.length - 4);
  const scale = Math.max(leastScale, (least + priorDegrees) / (degrees + priorDegrees));
  const chosen = chooseParts(pieces, scale, samples.independent);
  const { piece, leakPaPerS } = chosen;
  return {
    leakPaPerS,
    vapourRisePa: Math.max(0, piece.vapourPa - leakPaPerS * piece.vapourS),
    settlingRisePa: riseOf(chosen, 'settling'),
    saturatingS: timeOf(piece, 'saturating'),
    settlingS: timeOf(piece, 'settling'),
    leak: leakInterval(pieces, least + dropAt95 * scale),
    against: againstShares(pieces, testS, least, scale),
    likelyLeak: leakInterval(pieces, least + likely * scale),
    visibleLeakPaPerS: visibleLeak(samples, profile, chosen, scale),
    makeUp: chosen,
    testS,
    profile,
    scale,
  };
}

/** The parts with the least information criterion: misfit, and a price for each parameter. */
function chooseParts(pieces: readonly RisePiece[], scale: number, independent: number): MakeUp {
  const price = Math.log(Math.max(8, independent));
  let chosen: MakeUp | undefined;
  let lowest = Number.POSITIVE_INFINITY;
  for (const piece of pieces) {
    const parts = piece.parts.reduce((sum, part) => sum + parametersOf[part], 0);
    const at = bestWithin(piece) ?? piece.low;
    for (const leakPaPerS of piece.low === 0 && at > 0 ? [0, at] : [at]) {
      const criterion =
        misfitAt(piece, leakPaPerS) / scale + price * (parts + (leakPaPerS > 0 ? parametersOf.leak : 0));
      if (criterion >= lowest) continue;
      lowest = criterion;
      chosen = { piece, leakPaPerS };
    }
  }
  if (chosen === undefined) throw new TypeError('a rise without pieces');
  return chosen;
}

/** The time constant of a part [s]; 0 where there is none. */
function timeOf({ parts, timesS }: RisePiece, part: RisePart): number {
  const index = parts.indexOf(part);
  return index < 0 ? 0 : timesS[index];
}

/** What a part adds over the test [Pa]. */
function riseOf({ piece, leakPaPerS }: MakeUp, part: RisePart): number {
  const index = piece.parts.indexOf(part);
  return index < 0 ? 0 : Math.max(0, (piece.offsets[index] - leakPaPerS * piece.slopes[index]) * piece.gains[index]);
}

/** Every leak for which some mixture stays within a misfit. */
function leakInterval(pieces: readonly RisePiece[], within: number): Interval {
  let low = Number.POSITIVE_INFINITY;
  let high = 0;
  for (const { least, curvature, centre, low: from, high: to } of pieces) {
    if (least > within) continue;
    const half = Math.sqrt((within - least) / curvature);
    const a = Math.max(from, centre - half);
    const b = Math.min(to, centre + half);
    if (a > b) continue;
    low = Math.min(low, a);
    high = Math.max(high, b);
  }
  return { low: Number.isFinite(low) ? low : 0, high };
}

/** For each share that the leak may have in what came in, the misfit of the best such mixture above the best of all. */
function againstShares(
  pieces: readonly RisePiece[],
  testS: number,
  least: number,
  scale: number,
): Readonly<Record<Share, number>> {
  const best = { none: Number.POSITIVE_INFINITY, part: Number.POSITIVE_INFINITY, all: Number.POSITIVE_INFINITY };
  for (const piece of pieces) {
    // The leak at which it makes up a share f: k·T = f·(k·T + v − k·w).
    const leakAt = (share: number) => {
      const rate = testS - share * (testS - piece.vapourS);
      return rate > 0 ? (share * piece.vapourPa) / rate : Number.POSITIVE_INFINITY;
    };
    const few = leakAt(smallShare);
    const most = leakAt(1 - smallShare);
    for (const [share, low, high] of [
      ['none', 0, few],
      ['part', few, most],
      ['all', most, Number.POSITIVE_INFINITY],
    ] as const) {
      const at = bestWithin(piece, low, high);
      if (at !== undefined) best[share] = Math.min(best[share], misfitAt(piece, at));
    }
  }
  return {
    none: (best.none - least) / scale,
    part: (best.part - least) / scale,
    all: (best.all - least) / scale,
  };
}

/** The leak of a piece, within further bounds, at which the misfit is least; undefined where there is none. */
export function bestWithin(piece: RisePiece, low = 0, high = Number.POSITIVE_INFINITY): number | undefined {
  const from = Math.max(piece.low, low);
  const to = Math.min(piece.high, high);
  return from <= to ? Math.min(to, Math.max(from, piece.centre)) : undefined;
}

/** The misfit of a piece at a leak. */
export function misfitAt({ least, curvature, centre }: RisePiece, leakPaPerS: number): number {
  return least + curvature * (leakPaPerS - centre) ** 2;
}
