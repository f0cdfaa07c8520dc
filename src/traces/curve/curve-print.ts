import { type CurveBits, curveBits } from './curve-bits.ts';
import { type Landmark, landmarksOf } from './landmarks.ts';
import { type PeakWord, peakWords } from './peak-words.ts';
import { pressureCurve } from './pressure-curve.ts';
import { textureOf } from './texture.ts';

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
/** One that turns less often comes from a gauge that shows no noise: its steps alone fall like those of any smooth curve. */
const fewestTurns = 12;
/** What is left of these in a curve that was cut: it is kept to be found, though nothing is claimed of it. */
const leftRatio = 0.5;

/**
 * The print of a pressure curve.
 *
 * @param elapsedS [s], ascending; @param pa [Pa]: NaN not read, +Infinity above the range
 * @returns undefined where nothing would tell it from other curves: too short, or of a gauge that shows no noise
 */
export function curvePrint(elapsedS: Float64Array, pa: Float64Array): CurvePrint | undefined {
  const curve = pressureCurve(elapsedS, pa);
  const texture = textureOf(curve);
  const { telling, turns } = texture;
  if (telling < leftRatio * fewestTelling || turns < leftRatio * fewestTurns) return undefined;
  return {
    hasFace: telling >= fewestTelling && turns >= fewestTurns,
    bits: curveBits(texture),
    words: peakWords(texture),
    landmarks: landmarksOf(curve),
  };
}
