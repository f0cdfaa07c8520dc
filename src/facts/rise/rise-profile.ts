import { lineMinimum } from '../../numerics/line-minimum.ts';
import type { MakeUp } from './make-up.ts';
import { partAt, RiseBasis, type RiseOutlook } from './rise-basis.ts';
import { RiseColumns } from './rise-columns.ts';
import { RisePieces } from './rise-pieces.ts';
import type { RiseSamples } from './rise-samples.ts';

/** All that the readings leave open of a rise; it holds until that of the next one is made. */
export interface RiseProfile {
  readonly columns: RiseColumns;
  readonly pieces: RisePieces;
  /** Whether the rise slackens. */
  readonly isWet: boolean;
  /** Weighted mean of the pressure [Pa]. */
  readonly meanPa: number;
  /** What a piece stands for, with the time constant between those tried that fits best. */
  readonly makeUpOf: (piece: number, leakPaPerS: number) => MakeUp;
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

/** A time constant that was tried [s], and the least misfit with it. */
interface Attempt {
  readonly timeS: number;
  readonly least: number;
}

/** One memory for all rises, one after the other. */
const pieces = new RisePieces();

/**
 * Every make-up of a rise, all parts ≥ 0: for each time constant of a grid that is refined where it matters, and each set
 * of parts, the exact profile of the misfit over the leak.
 */
export function riseProfile(samples: RiseSamples, outlook: RiseOutlook): RiseProfile {
  const basis = new RiseBasis(samples, outlook);
  const columns = new RiseColumns(basis, samples.vacuumPa, samples.weights);
  const { solver } = columns;
  const degrees = samples.sinceS.length;
  pieces.count = 0;
  const found = {
    best: Number.POSITIVE_INFINITY,
    /** The least misfit of a rise that does not slacken once it has evened out. */
    steadyLeast: Number.POSITIVE_INFINITY,
    /** Of the time constant that is being tried [s]. */
    least: Number.POSITIVE_INFINITY,
    timeS: 0,
  };
  // Which equalisation does best is seen on the coarse grid; the finer one tries that alone.
  let settling = 0;
  const note = (own: number, withSettling: number) => {
    if (!(own < found.best)) return;
    found.best = own;
    if (withSettling > 0) settling = withSettling;
  };
  const take = (set: readonly number[], withSettling: number) => {
    const own = solver.leastWithin;
    if (own < found.least) found.least = own;
    note(own, withSettling);
    if (own < found.best + hopeless * Math.max(1, found.best / degrees)) pieces.add(solver, basis, set, found.timeS);
  };
  const takeDry = (set: readonly number[], withSettling: number) => {
    const own = solver.leastWithin;
    if (own < found.steadyLeast && set.every((place) => partAt(place) === 'settling')) found.steadyLeast = own;
    note(own, withSettling);
    pieces.add(solver, basis, set, 0);
  };
  const attempt = (which: 'moist' | 'wet', timeS: number, settlings?: readonly number[]): Attempt => {
    found.least = Number.POSITIVE_INFINITY;
    found.timeS = timeS;
    columns.eachSet(which, timeS, take, settlings);
    return { timeS, least: found.least };
  };
  const search = (which: 'moist' | 'wet') => {
    const tried: Attempt[] = [];
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
        if (Math.min(a.least, b.least) > found.best + nearlyAsWell) continue;
        const beside = isSteep && (index === nearest || index === nearest - 1);
        if (beside || steep(index)) tried.splice(index + 1, 0, attempt(which, Math.sqrt(a.timeS * b.timeS), settlings));
      }
      if (tried.length === before) break;
    }
    for (const { timeS, least } of tried) {
      if (least > found.best + nearlyAsWell) continue;
      columns.eachShifted(which, timeS, (set) => pieces.add(solver, basis, set, timeS), settlings);
    }
  };
  columns.eachSet('dry', 0, takeDry);
  search('moist');
  // Only where the rise slackens may there be water in a dead end too, which no gauge tells from a leak.
  const isWet = found.best < found.steadyLeast - moistureGain;
  if (isWet) search('wet');
  return {
    columns,
    pieces,
    isWet,
    meanPa: columns.mean,
    makeUpOf: (piece, leak) => makeUpOf(columns, pieces.sets[piece], pieces.saturatingS[piece], leak),
  };
}

function makeUpOf(columns: RiseColumns, set: readonly number[], saturatingS: number, leakPaPerS: number): MakeUp {
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
