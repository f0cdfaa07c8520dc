import { partAt, RiseBasis, type RiseOutlook, type RisePart } from './rise-basis.ts';
import { RiseColumns, type RiseSets } from './rise-columns.ts';
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
  /** The parts that take part, their time constants [s] and gains over the test, offsets and slopes. */
  readonly parts: readonly RisePart[];
  readonly timesS: Float64Array;
  readonly gains: Float64Array;
  readonly offsets: Float64Array;
  readonly slopes: Float64Array;
  /** What all parts but leak and equalisation add over the test: vapourPa − k·vapourS. */
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
  readonly basis: RiseBasis;
  readonly pieces: readonly RisePiece[];
  /** Whether moisture shows. */
  readonly isWet: boolean;
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
/** A piece with moisture that is so much worse than the best [misfit over its scale] explains nothing. */
const hopeless = 15;

/**
 * Every make-up of a rise, all parts ≥ 0: for each time constant of a grid that is refined where it matters, and each set
 * of parts, the exact profile of the misfit over the leak.
 */
export function riseProfile(samples: RiseSamples, outlook: RiseOutlook): RiseProfile {
  const basis = new RiseBasis(samples, outlook);
  const columns = new RiseColumns(basis, samples.vacuumPa, samples.weights);
  const degrees = samples.sinceS.length;
  const pieces: RisePiece[] = [];
  let best = Number.POSITIVE_INFINITY;
  const attempt = (which: RiseSets, timeS = 0): { timeS: number; least: number } => {
    let least = Number.POSITIVE_INFINITY;
    columns.eachSet(which, timeS, (set) => {
      const own = columns.solver.leastWithin;
      if (own < least) least = own;
      if (own < best) best = own;
      if (which === 'dry' || own < best + hopeless * Math.max(1, best / degrees)) pieces.push(pieceOf(columns, set));
    });
    return { timeS, least };
  };
  const search = (which: RiseSets) => {
    const tried: { timeS: number; least: number }[] = [];
    for (let timeS = longestTests * basis.testS; timeS >= shortestS; timeS /= firstStride)
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
  return { basis, pieces, isWet, meanPa: columns.mean };
}

function pieceOf({ solver, basis }: RiseColumns, set: readonly number[]): RisePiece {
  const { low, high, centre, least, curvature } = solver;
  const count = set.length;
  const parts: RisePart[] = [];
  const timesS = new Float64Array(count);
  const gains = new Float64Array(count);
  let vapourPa = 0;
  let vapourS = 0;
  for (let index = 0; index < count; index += 1) {
    const part = partAt(set[index]);
    parts.push(part);
    timesS[index] = basis.timesS[set[index]];
    gains[index] = basis.gains[set[index]];
    if (part === 'settling') continue;
    vapourPa += solver.offsets[index] * gains[index];
    vapourS += solver.slopes[index] * gains[index];
  }
  const offsets = solver.offsets.slice(0, count);
  const slopes = solver.slopes.slice(0, count);
  return { low, high, centre, least, curvature, parts, timesS, gains, offsets, slopes, vapourPa, vapourS };
}
