import { type CurveBits, curveBits } from './curve-bits.ts';
import { hasFace, isLeftOfFace } from './face.ts';
import { type Landmark, landmarksOf } from './landmarks.ts';
import { type PeakWord, peakWords } from './peak-words.ts';
import { Scratch } from '../../numerics/scratch.ts';
import { pressureCurve } from './pressure-curve.ts';
import { textureOf } from './texture.ts';

const memory = { times: new Scratch(), levels: new Scratch() };

/** By what a curve is found again: a few hundred bytes for a thousand readings. */
export interface CurvePrint {
  /** As `hasFace` says it. */
  readonly hasFace: boolean;
  readonly bits: CurveBits;
  readonly words: readonly PeakWord[];
  readonly landmarks: readonly Landmark[];
}

/**
 * The print of a pressure curve.
 *
 * @param elapsedS [s], ascending; @param pa [Pa]: NaN not read, +Infinity above the range
 * @returns undefined where nothing would tell it from other curves: too short, or of a gauge that shows no noise
 */
export function curvePrint(elapsedS: Float64Array, pa: Float64Array): CurvePrint | undefined {
  const curve = pressureCurve(elapsedS, pa, memory);
  const texture = textureOf(curve);
  if (!isLeftOfFace(texture)) return undefined;
  return {
    hasFace: hasFace(texture),
    bits: curveBits(texture),
    words: peakWords(texture),
    landmarks: landmarksOf(curve),
  };
}
