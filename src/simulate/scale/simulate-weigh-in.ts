import type { Random } from '../../numerics/random.ts';
import { drawScaleCourse } from './scale-course.ts';
import { askedScaleUpsets, drawScaleUpsets, type ScaleUpset } from './scale-upsets.ts';

export interface SimulateWeighInOptions {
  readonly random: Random;
  /** What truly leaves the cylinder [kg], above 0. */
  readonly massKg: number;
  /** Cylinder with its content, before [kg]. */
  readonly cylinderKg: number;
  readonly scaleStepKg: number;
  /** Time between readings [s]. */
  readonly intervalS: number;
  /** Exactly these; absent: drawn, as often as in a fleet. */
  readonly upsets?: readonly ScaleUpset[];
}

/** What a scale showed of one weigh-in, and what was true. */
export interface SimulatedWeighIn {
  readonly elapsedS: Float64Array;
  /** As shown [kg]; NaN while the scale is off. */
  readonly scaleKg: Float64Array;
  readonly truth: {
    readonly drawnKg: number;
    /** When the valve was first opened and last closed. */
    readonly flowFromS: number;
    readonly flowToS: number;
    readonly upsets: readonly ScaleUpset[];
  };
}

/**
 * Simulates one weigh-in alone, without the evacuation before it: for trying by the thousands how charge is read.
 *
 * @example
 * const random = new Random(1);
 * simulateWeighIn({ random, massKg: 0.6, cylinderKg: 12, scaleStepKg: 0.005, intervalS: 2, upsets: ['bump'] }).truth.upsets
 * // ['bump']
 */
export function simulateWeighIn(options: SimulateWeighInOptions): SimulatedWeighIn {
  const { random, massKg, cylinderKg, scaleStepKg, intervalS } = options;
  const upsets = options.upsets === undefined ? drawScaleUpsets(random) : askedScaleUpsets(random, options.upsets);
  const course = drawScaleCourse({ random, massKg, cylinderKg, scaleStepKg, upsets });
  const times: number[] = [];
  const shown: number[] = [];
  let lastS = Number.NEGATIVE_INFINITY;
  for (let nowS = 0; nowS < course.durationS; nowS += Math.max(0.2, intervalS * random.normal(1, 0.05))) {
    const atS = Math.round(nowS * 10) / 10;
    if (atS <= lastS) continue;
    times.push(atS);
    shown.push(course.shownKg(nowS));
    lastS = atS;
  }
  return {
    elapsedS: Float64Array.from(times),
    scaleKg: Float64Array.from(shown),
    truth: { drawnKg: massKg, flowFromS: course.flowFromS, flowToS: course.flowToS, upsets: course.upsets },
  };
}
