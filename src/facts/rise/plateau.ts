import { lineMinimum } from '../../numerics/line-minimum.ts';
import { SaturatingLeastSquares } from '../../numerics/saturating-least-squares.ts';
import { type MakeUp, partOf } from './make-up.ts';
import { dropAt95 } from './rise-profile.ts';
import type { RiseSamples } from './rise-samples.ts';

/** Where a rise levels off, leak apart, with its 95 % interval [Pa]. */
export interface Plateau {
  readonly pa: number;
  readonly lowPa: number;
  /** +Infinity where the rise was seen in its early part only. */
  readonly highPa: number;
}

/** Beyond so many lengths of the test the rise may level anywhere. */
const unseenTests = 40;
const leastS = 3;
/** The first step away from the best time constant, as a ratio, and how each next one grows. */
const firstStep = 0.01;
const stepGrowth = 1.5;
const mostStep = 0.3;
/** Halvings of the last step, to where the fit is just not good enough any more. */
const halvings = 5;

/**
 * The pressure at which the saturating part of a rise levels off, with every time constant that explains the readings
 * nearly as well.
 *
 * @param makeUp what the rise was made of
 * @param scale misfit that counts as one
 * @returns undefined where nothing saturates
 */
export function plateau(samples: RiseSamples, makeUp: MakeUp, scale: number): Plateau | undefined {
  const saturating = partOf(makeUp, 'saturating');
  if (saturating === undefined) return undefined;
  const { sinceS, vacuumPa, weights } = samples;
  const settling = partOf(makeUp, 'settling');
  // Level, equalisation and the saturating part add up to the plateau; a leak stands beside them.
  const levels = [new Float64Array(sinceS.length).fill(1)];
  if (settling !== undefined) levels.push(sinceS.map((since) => 1 - Math.exp(-since / settling.timeS)));
  const beside = makeUp.leakPaPerS > 0 ? [...levels, sinceS] : levels;
  const curve = new SaturatingLeastSquares(sinceS, vacuumPa, beside, weights);
  const shares = [...beside.map((_, index) => (index < levels.length ? 1 : 0)), 1];
  const levelAt = (timeS: number): { pa: number; misfit: number } => {
    const solved = curve.solve(1 / timeS);
    let pa = 0;
    for (let index = 0; index < shares.length; index += 1) pa += shares[index] * curve.coefficients[index];
    return { pa, misfit: solved ? curve.misfit : Number.POSITIVE_INFINITY };
  };
  const best = lineMinimum((logS) => levelAt(Math.exp(logS)).misfit, Math.log(saturating.timeS), 0.01, 1e-5);
  const ownS = best === undefined ? saturating.timeS : Math.exp(best.at);
  const own = levelAt(ownS);
  if (!Number.isFinite(own.misfit)) return undefined;
  let lowPa = own.pa;
  let highPa = own.pa;
  /** Takes a time constant into the interval; false where it fits too badly. */
  const take = (timeS: number): boolean => {
    const { pa, misfit } = levelAt(timeS);
    const left = dropAt95 * scale - (misfit - own.misfit);
    if (!(left >= 0)) return false;
    const half = Math.sqrt(left * curve.variance(shares));
    lowPa = Math.min(lowPa, pa - half);
    highPa = Math.max(highPa, pa + half);
    return true;
  };
  take(ownS);
  walk(ownS, -1, leastS, take);
  if (walk(ownS, 1, unseenTests * sinceS[sinceS.length - 1], take)) highPa = Number.POSITIVE_INFINITY;
  return { pa: own.pa, lowPa: Math.max(0, lowPa), highPa };
}

/** Goes from a time constant one way until `take` refuses, and then near to where it does; true where it never does. */
function walk(fromS: number, direction: 1 | -1, limitS: number, take: (timeS: number) => boolean): boolean {
  let step = firstStep;
  let timeS = fromS;
  while (direction > 0 ? timeS < limitS : timeS > limitS) {
    const nextS = timeS * (1 + step) ** direction;
    if (!take(nextS)) {
      let good = timeS;
      let bad = nextS;
      for (let halving = 0; halving < halvings; halving += 1) {
        const middle = Math.sqrt(good * bad);
        if (take(middle)) good = middle;
        else bad = middle;
      }
      return false;
    }
    timeS = nextS;
    step = Math.min(mostStep, step * stepGrowth);
  }
  return true;
}
