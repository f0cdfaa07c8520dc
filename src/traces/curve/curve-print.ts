import { type CurveBits, curveBits } from './curve-bits.ts';
import { type Landmark, landmarksOf } from './landmarks.ts';
import { type PeakWord, peakWords } from './peak-words.ts';
import { pressureCurve } from './pressure-curve.ts';
import { type Texture, textureOf } from './texture.ts';

/** By what a curve is found again: a few hundred bytes for a thousand readings. */
export interface CurvePrint {
  /** Whether the curve has a face of its own: if it stood in another job, even cut to three fifths, it would show. */
  readonly hasFace: boolean;
  readonly bits: CurveBits;
  readonly words: readonly PeakWord[];
  readonly landmarks: readonly Landmark[];
}

// Common practice, no source; set on simulated fleets (tests/copies).
/** With fewer readings that tell a curve has no face of its own. */
const fewestTelling = 60;
/**
 * One that turns less often, in all and for each reading that tells, comes from a gauge that shows no noise: its steps alone fall like
 * those of any smooth curve. Of usual gauges one curve in two hundred turns so seldom.
 */
const fewestTurns = 12;
const fewestTurnsShare = 0.1;
/** What is left of these in a curve that was cut: it is kept to be found, though nothing is claimed of it. */
const leftRatio = 0.4;

/**
 * The print of a pressure curve.
 *
 * @param elapsedS [s], ascending; @param pa [Pa]: NaN not read, +Infinity above the range
 * @returns undefined where nothing would tell it from other curves: too short, or of a gauge that shows no noise
 */
export function curvePrint(elapsedS: Float64Array, pa: Float64Array): CurvePrint | undefined {
  const curve = pressureCurve(elapsedS, pa);
  const texture = textureOf(curve);
  if (!hasMoreThan(texture, leftRatio)) return undefined;
  return {
    hasFace: hasMoreThan(texture, 1),
    bits: curveBits(texture),
    words: peakWords(texture),
    landmarks: landmarksOf(curve),
  };
}

function hasMoreThan({ telling, turns }: Texture, ratio: number): boolean {
  return telling >= ratio * fewestTelling && turns >= ratio * Math.max(fewestTurns, fewestTurnsShare * telling);
}
