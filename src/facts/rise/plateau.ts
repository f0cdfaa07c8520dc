import { solveSymmetric } from '../../numerics/solve-symmetric.ts';
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

/** Time constants are tried one so many times the next … */
const stride = 1.12;
/** … up to so many lengths of the test: beyond, the rise may level anywhere. */
const longestTests = 40;
const shortestS = 5;

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
  const { sinceS } = samples;
  const settling = partOf(makeUp, 'settling');
  const columns: Float64Array[] = [new Float64Array(sinceS.length).fill(1), new Float64Array(sinceS.length)];
  if (settling !== undefined) columns.push(saturatingShape(sinceS, settling.timeS));
  const levels = columns.length;
  if (makeUp.leakPaPerS > 0) columns.push(sinceS);
  const fitAt = (timeS: number) => {
    columns[1] = saturatingShape(sinceS, timeS);
    return levelOf(samples, columns, levels);
  };
  const ownS = saturating.timeS;
  const best = fitAt(ownS);
  if (best === undefined) return undefined;
  let lowPa = best.pa;
  let highPa = best.pa;
  const widen = (factor: number, limitS: number): boolean => {
    for (let timeS = ownS; factor > 1 ? timeS < limitS : timeS > limitS; timeS *= factor) {
      const fit = fitAt(timeS);
      const left = dropAt95 * scale - ((fit?.misfit ?? Number.POSITIVE_INFINITY) - best.misfit);
      if (fit === undefined || left < 0) return true;
      const half = Math.sqrt(left * fit.variance);
      lowPa = Math.min(lowPa, fit.pa - half);
      highPa = Math.max(highPa, fit.pa + half);
    }
    return false;
  };
  widen(1 / stride, shortestS);
  if (!widen(stride, longestTests * sinceS[sinceS.length - 1])) highPa = Number.POSITIVE_INFINITY;
  return { pa: best.pa, lowPa: Math.max(0, lowPa), highPa };
}

function saturatingShape(sinceS: Float64Array, timeS: number): Float64Array {
  return sinceS.map((since) => 1 - Math.exp(-since / timeS));
}

/** The sum of the first `levels` coefficients of a weighted fit, its variance [Pa²], and the misfit. */
function levelOf(
  { vacuumPa, weights }: RiseSamples,
  columns: readonly Float64Array[],
  levels: number,
): { pa: number; variance: number; misfit: number } | undefined {
  const product = (a: Float64Array, b: Float64Array) => {
    let sum = 0;
    for (let i = 0; i < a.length; i += 1) sum += weights[i] * a[i] * b[i];
    return sum;
  };
  const matrix = Float64Array.from(columns.flatMap((a) => columns.map((b) => product(a, b))));
  const coefficients = Float64Array.from(columns, (column) => product(column, vacuumPa));
  const ones = Float64Array.from(columns, (_, index) => (index < levels ? 1 : 0));
  if (!solveSymmetric(matrix.slice(), coefficients) || !solveSymmetric(matrix, ones)) return undefined;
  let pa = 0;
  let variance = 0;
  for (let index = 0; index < levels; index += 1) {
    pa += coefficients[index];
    variance += ones[index];
  }
  let misfit = 0;
  for (let i = 0; i < vacuumPa.length; i += 1) {
    let residual = vacuumPa[i];
    for (let index = 0; index < columns.length; index += 1) residual -= coefficients[index] * columns[index][i];
    misfit += weights[i] * residual * residual;
  }
  return { pa, variance, misfit };
}
