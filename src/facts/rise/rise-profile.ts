import { lineMinimum } from '../../numerics/line-minimum.ts';
import type { MakeUp } from './make-up.ts';
import { partAt, RiseBasis, type RiseOutlook } from './rise-basis.ts';
import { RiseColumns, type RiseSets } from './rise-columns.ts';
import type { RiseSamples } from './rise-samples.ts';

/**
 * One way to make up the rise: a range of leaks k [Pa/s], and what comes in beside each of them.
 *
 * misfit(k) = least + curvature·(k − centre)² for low ≤ k ≤ high.
 */
export interface RisePiece {
  readonly low: number;
  readonly high: number;
  readonly centre: number;
  readonly least: number;
  readonly curvature: number;
  /** The parts beside the leak, as places of the basis, and the time constant of the saturating one [s]. */
  readonly set: readonly number[];
  readonly saturatingS: number;
  /** What all parts but leak and equalisation add over the test: vapourPa − k·vapourS. */
  readonly vapourPa: number;
  readonly vapourS: number;
}

/** All that the readings leave open of a rise. */
export interface RiseProfile {
  readonly basis: RiseBasis;
  readonly pieces: readonly RisePiece[];
  /** Whether the rise slackens. */
  readonly isWet: boolean;
  /** Weighted mean of the pressure [Pa]. */
  readonly meanPa: number;
  /** What a piece stands for, with the time constant between those tried that fits best. */
  readonly makeUpOf: (piece: RisePiece, leakPaPerS: number) => MakeUp;
}

// Common practice, no source; set on simulated fleets (tests/truth).
/**
 * A make-up that fits so much worse than the best [misfit over its scale] is left out of a 95 % interval: 3.84 (χ², 1 degree
 * of freedom), and more for parts at their bounds, for time constants between those tried, and for what is not modelled.
 */
export const dropAt95 = 4.8;
/** Moisture comes off with a time constant from so many seconds … */
const shortestS = 20;
/** … to so many lengths of the test. */
export const longestTests = 2;
/** Time constants tried at first, one so many times the other. */
const firstStride = 2.5;
/** Between two neighbours of which one fits so nearly as well as the best [misfit], a further one is tried … */
const nearlyAsWell = 8;
/** … until neighbours differ by less [misfit], or so many times. */
const smallGain = 4;
const mostRounds = 9;
/** A rise slackens where parts that do make the fit so much better [misfit]. */
const moistureGain = 12;
/** The time constant of the chosen make-up is sought in strides of this, to within that [ratio]. */
const timeStride = 0.08;
const timeTolerance = 2e-3;
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
  /** The least misfit of a rise that does not slacken once it has evened out. */
  let steadyLeast = Number.POSITIVE_INFINITY;
  // Which equalisation does best is seen on the coarse grid; the finer one tries that alone.
  let settling = 0;
  const attempt = (which: RiseSets, timeS = 0, settlings?: readonly number[]): { timeS: number; least: number } => {
    let least = Number.POSITIVE_INFINITY;
    columns.eachSet(
      which,
      timeS,
      (set, withSettling) => {
        const own = columns.solver.leastWithin;
        if (own < least) least = own;
        if (which === 'dry' && own < steadyLeast && set.every((place) => partAt(place) === 'settling'))
          steadyLeast = own;
        if (own < best) {
          best = own;
          if (withSettling > 0) settling = withSettling;
        }
        if (which === 'dry' || own < best + hopeless * Math.max(1, best / degrees))
          pieces.push(pieceOf(columns, set, timeS));
      },
      settlings,
    );
    return { timeS, least };
  };
  const search = (which: 'moist' | 'wet') => {
    const tried: { timeS: number; least: number }[] = [];
    for (let timeS = longestTests * basis.testS; timeS >= shortestS; timeS /= firstStride)
      tried.unshift(attempt(which, timeS));
    const settlings = settling === 0 ? [] : [settling];
    for (let round = 0; round < mostRounds; round += 1) {
      const before = tried.length;
      let nearest = 0;
      for (let index = 1; index < before; index += 1) if (tried[index].least < tried[nearest].least) nearest = index;
      const steep = (index: number) => Math.abs(tried[index].least - tried[index + 1].least) > smallGain;
      // Beside the best, neighbours that fit as well may have a better one between them.
      const isSteep = (nearest > 0 && steep(nearest - 1)) || (nearest < before - 1 && steep(nearest));
      for (let index = before - 2; index >= 0; index -= 1) {
        const [a, b] = [tried[index], tried[index + 1]];
        if (Math.min(a.least, b.least) > best + nearlyAsWell) continue;
        const beside = isSteep && (index === nearest || index === nearest - 1);
        if (beside || steep(index)) tried.splice(index + 1, 0, attempt(which, Math.sqrt(a.timeS * b.timeS), settlings));
      }
      if (tried.length === before) break;
    }
    for (const { timeS, least } of tried) {
      if (least > best + nearlyAsWell) continue;
      columns.eachShifted(which, timeS, (set) => pieces.push(pieceOf(columns, set, timeS)), settlings);
    }
  };
  attempt('dry');
  search('moist');
  // Only where the rise slackens may there be water in a dead end too, which no gauge tells from a leak.
  const isWet = best < steadyLeast - moistureGain;
  if (isWet) search('wet');
  return { basis, pieces, isWet, meanPa: columns.mean, makeUpOf: (piece, leak) => makeUpOf(columns, piece, leak) };
}

function makeUpOf(columns: RiseColumns, { set, saturatingS }: RisePiece, leakPaPerS: number): MakeUp {
  const { basis, solver } = columns;
  const misfit = (timeS: number) => {
    if (timeS < shortestS || timeS > longestTests * basis.testS) return Number.POSITIVE_INFINITY;
    if (!columns.solve(set, timeS) || (leakPaPerS === 0 && solver.low > 0)) return Number.POSITIVE_INFINITY;
    return leakPaPerS > 0 ? solver.leastWithin : solver.least + solver.curvature * solver.centre ** 2;
  };
  const best =
    saturatingS > 0
      ? lineMinimum((logS) => misfit(Math.exp(logS)), Math.log(saturatingS), timeStride, timeTolerance)
      : undefined;
  const timeS = best === undefined || best.value === Number.POSITIVE_INFINITY ? saturatingS : Math.exp(best.at);
  columns.solve(set, timeS);
  const leak = leakPaPerS > 0 ? Math.min(solver.high, Math.max(solver.low, solver.centre)) : 0;
  return {
    leakPaPerS: leak,
    parts: set.map((place, index) => {
      const size = Math.max(0, solver.offsets[index] - leak * solver.slopes[index]);
      return { part: partAt(place), timeS: basis.timesS[place], size };
    }),
  };
}

function pieceOf({ solver, basis }: RiseColumns, set: readonly number[], saturatingS: number): RisePiece {
  const { low, high, centre, least, curvature, offsets, slopes } = solver;
  let vapourPa = 0;
  let vapourS = 0;
  for (let index = 0; index < set.length; index += 1) {
    if (partAt(set[index]) === 'settling') continue;
    vapourPa += offsets[index] * basis.gains[set[index]];
    vapourS += slopes[index] * basis.gains[set[index]];
  }
  return { low, high, centre, least, curvature, set, saturatingS, vapourPa, vapourS };
}
