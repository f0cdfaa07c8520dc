import { columnCount, partAt, places, type RisePart } from './rise-basis.ts';
import type { RisePiece } from './rise-profile.ts';

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

/** The least misfit of all pieces. */
export function leastMisfit(pieces: readonly RisePiece[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (const piece of pieces) least = Math.min(least, misfitAt(piece, bestLeak(piece)));
  return least;
}

/**
 * The piece and the leak with the least information criterion: misfit, and a price for each parameter.
 *
 * @param scale misfit that counts as one
 * @param independent how many readings are worth as much as independent ones
 */
export function chosenPiece(
  pieces: readonly RisePiece[],
  scale: number,
  independent: number,
): { piece: RisePiece; leakPaPerS: number } | undefined {
  const price = Math.log(Math.max(8, independent));
  let chosen: { piece: RisePiece; leakPaPerS: number } | undefined;
  let lowest = Number.POSITIVE_INFINITY;
  for (const piece of pieces) {
    let parameters = 0;
    for (const place of piece.set) parameters += parametersAt[place];
    const best = bestLeak(piece);
    const with_ = misfitAt(piece, best) / scale + price * (parameters + (best > 0 ? parametersOf.leak : 0));
    if (with_ < lowest) {
      lowest = with_;
      chosen = { piece, leakPaPerS: best };
    }
    if (piece.low > 0 || best === 0) continue;
    const without = misfitAt(piece, 0) / scale + price * parameters;
    if (without < lowest) {
      lowest = without;
      chosen = { piece, leakPaPerS: 0 };
    }
  }
  return chosen;
}

/** Every leak [Pa/s] for which some piece stays within a misfit. */
export function leaksWithin(pieces: readonly RisePiece[], misfit: number): Interval {
  let low = Number.POSITIVE_INFINITY;
  let high = 0;
  for (const { least, curvature, centre, low: from, high: to } of pieces) {
    if (least > misfit) continue;
    const half = Math.sqrt((misfit - least) / curvature);
    const a = Math.max(from, centre - half);
    const b = Math.min(to, centre + half);
    if (a > b) continue;
    if (a < low) low = a;
    if (b > high) high = b;
  }
  return { low: Number.isFinite(low) ? low : 0, high };
}

/** For each share that the leak may have in what came in, the least misfit of such a make-up. */
export function leastByShare(pieces: readonly RisePiece[], testS: number): Readonly<Record<LeakShare, number>> {
  let none = Number.POSITIVE_INFINITY;
  let part = Number.POSITIVE_INFINITY;
  let all = Number.POSITIVE_INFINITY;
  for (const piece of pieces) {
    const few = leakAtShare(piece, smallShare, testS);
    const most = leakAtShare(piece, 1 - smallShare, testS);
    none = Math.min(none, leastBetween(piece, 0, few));
    part = Math.min(part, leastBetween(piece, few, most));
    all = Math.min(all, leastBetween(piece, most, Number.POSITIVE_INFINITY));
  }
  return { none, part, all };
}

/** The leak k that makes up a share f of what came in: k·T = f·(k·T + v − k·w). */
function leakAtShare({ vapourPa, vapourS }: RisePiece, share: number, testS: number): number {
  const rate = testS - share * (testS - vapourS);
  return rate > 0 ? (share * vapourPa) / rate : Number.POSITIVE_INFINITY;
}

function leastBetween(piece: RisePiece, low: number, high: number): number {
  const from = Math.max(piece.low, low);
  const to = Math.min(piece.high, high);
  return from <= to ? misfitAt(piece, Math.min(to, Math.max(from, piece.centre))) : Number.POSITIVE_INFINITY;
}

/** The leak within a piece's range at which the misfit is least. */
function bestLeak({ low, high, centre }: RisePiece): number {
  return Math.min(high, Math.max(low, centre));
}

function misfitAt({ least, curvature, centre }: RisePiece, leakPaPerS: number): number {
  return least + curvature * (leakPaPerS - centre) ** 2;
}
