import type { PartialProfile } from '../../numerics/partial-profile.ts';
import { columnCount, partAt, places, type RiseBasis, type RisePart } from './rise-basis.ts';

/** A value's interval. */
export interface Interval {
  readonly low: number;
  readonly high: number;
}

/** Leak as a share of leak and vapour together: hardly any, part, nearly all. */
export type LeakShare = 'none' | 'part' | 'all';

/** A share below this is hardly any; above one less it, nearly all. Common practice, no source. */
export const smallShare = 0.2;
/** What a part costs [parameters]: outgassing and water from a dead end are taken only where a leak does clearly worse. */
const parametersOf: Readonly<Record<RisePart, number>> = { leak: 1, saturating: 2, settling: 1.5, tail: 2, slow: 2 };
/** A make-up with a shift stands for what lies between time constants, and is not chosen itself. */
const parametersAt = Float64Array.from({ length: columnCount }, (_, place) => {
  if (place === places.shift) return Number.POSITIVE_INFINITY;
  return place === 0 ? 0 : parametersOf[partAt(place)];
});

/**
 * Ways to make up a rise, as parallel arrays, which hundreds of small objects a job would cost more than. Each has a range of
 * leaks k [Pa/s], and what comes in beside each of them: misfit(k) = least + curvature·(k − centre)² for low ≤ k ≤ high.
 */
export class RisePieces {
  count = 0;
  low = new Float64Array(256);
  high = new Float64Array(256);
  centre = new Float64Array(256);
  least = new Float64Array(256);
  curvature = new Float64Array(256);
  /** The parts beside the leak, as places of the basis, and the time constant of the saturating one [s]. */
  readonly sets: (readonly number[])[] = [];
  saturatingS = new Float64Array(256);
  /** What all parts but leak and equalisation add over the test: vapourPa − k·vapourS. */
  vapourPa = new Float64Array(256);
  vapourS = new Float64Array(256);

  /** Takes in the solution of a set. */
  add(solver: PartialProfile, { gains }: RiseBasis, set: readonly number[], saturatingS: number): void {
    const piece = this.count;
    if (piece === this.low.length) this.#grow();
    this.count += 1;
    this.low[piece] = solver.low;
    this.high[piece] = solver.high;
    this.centre[piece] = solver.centre;
    this.least[piece] = solver.least;
    this.curvature[piece] = solver.curvature;
    this.sets[piece] = set;
    this.saturatingS[piece] = saturatingS;
    let vapourPa = 0;
    let vapourS = 0;
    for (let index = 0; index < set.length; index += 1) {
      const place = set[index];
      if (place >= places.settling && place < places.saturating) continue;
      vapourPa += solver.offsets[index] * gains[place];
      vapourS += solver.slopes[index] * gains[place];
    }
    this.vapourPa[piece] = vapourPa;
    this.vapourS[piece] = vapourS;
  }

  /** The leak within a piece's range at which the misfit is least. */
  bestLeak(piece: number): number {
    return Math.min(this.high[piece], Math.max(this.low[piece], this.centre[piece]));
  }

  misfitAt(piece: number, leakPaPerS: number): number {
    return this.least[piece] + this.curvature[piece] * (leakPaPerS - this.centre[piece]) ** 2;
  }

  #grow(): void {
    this.low = doubled(this.low);
    this.high = doubled(this.high);
    this.centre = doubled(this.centre);
    this.least = doubled(this.least);
    this.curvature = doubled(this.curvature);
    this.saturatingS = doubled(this.saturatingS);
    this.vapourPa = doubled(this.vapourPa);
    this.vapourS = doubled(this.vapourS);
  }
}

function doubled(values: Float64Array): Float64Array<ArrayBuffer> {
  const all = new Float64Array(2 * values.length);
  all.set(values);
  return all;
}

/** The least misfit of all pieces. */
export function leastMisfit(pieces: RisePieces): number {
  let least = Number.POSITIVE_INFINITY;
  for (let piece = 0; piece < pieces.count; piece += 1)
    least = Math.min(least, pieces.misfitAt(piece, pieces.bestLeak(piece)));
  return least;
}

/**
 * The piece and the leak with the least information criterion: misfit, and a price for each parameter.
 *
 * @param scale misfit that counts as one
 * @param independent how many readings are worth as much as independent ones
 */
export function chosenPiece(
  pieces: RisePieces,
  scale: number,
  independent: number,
): { piece: number; leakPaPerS: number } | undefined {
  const price = Math.log(Math.max(8, independent));
  let chosen: { piece: number; leakPaPerS: number } | undefined;
  let lowest = Number.POSITIVE_INFINITY;
  for (let piece = 0; piece < pieces.count; piece += 1) {
    let parameters = 0;
    for (const place of pieces.sets[piece]) parameters += parametersAt[place];
    const best = pieces.bestLeak(piece);
    const with_ = pieces.misfitAt(piece, best) / scale + price * (parameters + (best > 0 ? parametersOf.leak : 0));
    if (with_ < lowest) {
      lowest = with_;
      chosen = { piece, leakPaPerS: best };
    }
    if (pieces.low[piece] > 0 || best === 0) continue;
    const without = pieces.misfitAt(piece, 0) / scale + price * parameters;
    if (without < lowest) {
      lowest = without;
      chosen = { piece, leakPaPerS: 0 };
    }
  }
  return chosen;
}

/** Every leak [Pa/s] for which some piece stays within a misfit. */
export function leaksWithin(pieces: RisePieces, misfit: number): Interval {
  let low = Number.POSITIVE_INFINITY;
  let high = 0;
  for (let piece = 0; piece < pieces.count; piece += 1) {
    const least = pieces.least[piece];
    if (least > misfit) continue;
    const half = Math.sqrt((misfit - least) / pieces.curvature[piece]);
    const a = Math.max(pieces.low[piece], pieces.centre[piece] - half);
    const b = Math.min(pieces.high[piece], pieces.centre[piece] + half);
    if (a > b) continue;
    if (a < low) low = a;
    if (b > high) high = b;
  }
  return { low: Number.isFinite(low) ? low : 0, high };
}

/** For each share that the leak may have in what came in, the least misfit of such a make-up. */
export function leastByShare(pieces: RisePieces, testS: number): Readonly<Record<LeakShare, number>> {
  let none = Number.POSITIVE_INFINITY;
  let part = Number.POSITIVE_INFINITY;
  let all = Number.POSITIVE_INFINITY;
  for (let piece = 0; piece < pieces.count; piece += 1) {
    const few = leakAtShare(pieces, piece, smallShare, testS);
    const most = leakAtShare(pieces, piece, 1 - smallShare, testS);
    none = Math.min(none, leastBetween(pieces, piece, 0, few));
    part = Math.min(part, leastBetween(pieces, piece, few, most));
    all = Math.min(all, leastBetween(pieces, piece, most, Number.POSITIVE_INFINITY));
  }
  return { none, part, all };
}

/** The leak k that makes up a share f of what came in: k·T = f·(k·T + v − k·w). */
function leakAtShare({ vapourPa, vapourS }: RisePieces, piece: number, share: number, testS: number): number {
  const rate = testS - share * (testS - vapourS[piece]);
  return rate > 0 ? (share * vapourPa[piece]) / rate : Number.POSITIVE_INFINITY;
}

function leastBetween(pieces: RisePieces, piece: number, low: number, high: number): number {
  const from = Math.max(pieces.low[piece], low);
  const to = Math.min(pieces.high[piece], high);
  return from <= to
    ? pieces.misfitAt(piece, Math.min(to, Math.max(from, pieces.centre[piece])))
    : Number.POSITIVE_INFINITY;
}
