import { RiseColumns, type RiseOutlook, type RisePart, type RiseSets } from './rise-columns.ts';
import type { RiseSamples } from './rise-samples.ts';

/**
 * One way to make up the rise: a range of leaks k [Pa/s], and what comes in beside each of them.
 *
 * misfit(k) = least + curvature·(k − centre)² for low ≤ k ≤ high; each part's size is offset − k·slope.
 */
export interface RisePiece {
  readonly low: number;
  readonly high: number;
  readonly centre: number;
  readonly least: number;
  readonly curvature: number;
  readonly parts: readonly { readonly part: RisePart; readonly offset: number; readonly slope: number }[];
  /** What all parts but the equalisation add over the test: vapourPa − k·vapourS. */
  readonly vapourPa: number;
  readonly vapourS: number;
}

/** A piece, and the leak within its range [Pa/s]. */
export interface MakeUp {
  readonly piece: RisePiece;
  readonly leakPaPerS: number;
}

/** All that the readings leave open of a rise. */
export interface RiseProfile {
  readonly pieces: readonly RisePiece[];
  /** Whether moisture shows. */
  readonly isWet: boolean;
  /** Length of the test, to its last mean [s]. */
  readonly testS: number;
  /** Weighted mean of the pressure [Pa]. */
  readonly meanPa: number;
}

// Common practice, no source; set on simulated fleets (tests/truth).
/**
 * A make-up that fits so much worse than the best [misfit over its scale] is left out of a 95 % interval: 3.84 (χ², 1 degree
 * of freedom) and a little for parts that stand at their bounds.
 */
export const dropAt95 = 4.6;
/** Moisture comes off with a time constant from so many seconds … */
const shortestS = 20;
/** … to so many lengths of the test. */
export const longestTests = 2;
/** Time constants tried at first, one so many times the other. */
const firstStride = 2;
/** Between two neighbours of which one fits so nearly as well as the best [misfit], a further one is tried … */
const nearlyAsWell = 8;
/** … until neighbours differ by less [misfit], or so many times. */
const smallGain = 1;
const mostRounds = 9;
/** Moisture shows where a saturating part makes the fit so much better [misfit]. */
const moistureGain = 12;
/** A piece so much worse than the best explains nothing. */
const hopeless = 60;

/**
 * Every make-up of a rise, all parts ≥ 0: for each time constant of a grid that is refined where it matters, and each set
 * of parts, the exact profile of the misfit over the leak.
 */
export function riseProfile(samples: RiseSamples, outlook: RiseOutlook): RiseProfile {
  const columns = new RiseColumns(samples, outlook);
  const pieces: RisePiece[] = [];
  let best = Number.POSITIVE_INFINITY;
  const attempt = (which: RiseSets, timeS = 0): { timeS: number; least: number } => {
    let least = Number.POSITIVE_INFINITY;
    columns.eachSet(which, timeS, (places) => {
      const own = columns.solver.leastWithin;
      if (own < least) least = own;
      if (own < best) best = own;
      if (own < best + hopeless) pieces.push(pieceOf(columns, places));
    });
    return { timeS, least };
  };
  const search = (which: RiseSets) => {
    const tried: { timeS: number; least: number }[] = [];
    for (let timeS = longestTests * columns.testS; timeS >= shortestS; timeS /= firstStride)
      tried.unshift(attempt(which, timeS));
    for (let round = 0; round < mostRounds; round += 1) {
      const before = tried.length;
      for (let index = tried.length - 2; index >= 0; index -= 1) {
        const [a, b] = [tried[index], tried[index + 1]];
        if (Math.min(a.least, b.least) > best + nearlyAsWell || Math.abs(a.least - b.least) < smallGain) continue;
        tried.splice(index + 1, 0, attempt(which, Math.sqrt(a.timeS * b.timeS)));
      }
      if (tried.length === before) break;
    }
  };
  const dry = attempt('dry').least;
  search('moist');
  // Only where moisture shows may there be water in a dead end too, which no gauge tells from a leak.
  const isWet = best < dry - moistureGain;
  if (isWet) search('wet');
  return {
    pieces: pieces.filter(({ least }) => least < best + hopeless),
    isWet,
    testS: columns.testS,
    meanPa: columns.mean,
  };
}

function pieceOf(columns: RiseColumns, places: readonly number[]): RisePiece {
  const { low, high, centre, least, curvature, offsets, slopes } = columns.solver;
  const parts = places.map((place, index) => ({
    part: columns.part(place),
    offset: offsets[index],
    slope: slopes[index],
  }));
  let vapourPa = 0;
  let vapourS = 0;
  for (const { part, offset, slope } of parts) {
    if (part.kind === 'settling') continue;
    vapourPa += offset * part.gain;
    vapourS += slope * part.gain;
  }
  return { low, high, centre, least, curvature, parts, vapourPa, vapourS };
}
