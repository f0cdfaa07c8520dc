import { lineMinimum } from '../../numerics/line-minimum.ts';
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

/** Beyond so many lengths of the test the rise may level anywhere. */
const longestTests = 40;
const shortestS = 3;
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
  const fit = new PlateauFit(samples, makeUp);
  const best = lineMinimum((logS) => fit.at(Math.exp(logS)).misfit, Math.log(saturating.timeS), 0.01, 1e-5);
  const ownS = best === undefined ? saturating.timeS : Math.exp(best.at);
  const own = fit.at(ownS);
  if (!Number.isFinite(own.misfit)) return undefined;
  let lowPa = own.pa;
  let highPa = own.pa;
  /** Takes a time constant into the interval; false where it fits too badly. */
  const take = (timeS: number): boolean => {
    const { pa, variance, misfit } = fit.at(timeS);
    const left = dropAt95 * scale - (misfit - own.misfit);
    if (!(left >= 0)) return false;
    const half = Math.sqrt(left * variance);
    lowPa = Math.min(lowPa, pa - half);
    highPa = Math.max(highPa, pa + half);
    return true;
  };
  take(ownS);
  walk(ownS, -1, shortestS, take);
  if (walk(ownS, 1, longestTests * samples.sinceS[samples.sinceS.length - 1], take)) highPa = Number.POSITIVE_INFINITY;
  return { pa: own.pa, lowPa: Math.max(0, lowPa), highPa };
}

/** Goes from a time constant one way until `take` refuses, and then near to where it does; true where it never does. */
function walk(fromS: number, direction: 1 | -1, limitS: number, take: (timeS: number) => boolean): boolean {
  let step = firstStep;
  let timeS = fromS;
  while (direction > 0 ? timeS < limitS : timeS > limitS) {
    const nextS = timeS * (1 + step) ** direction;
    if (!take(nextS)) {
      let [good, bad] = [timeS, nextS];
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

/** Weighted least squares of level, saturating part, equalisation and leak, whichever the make-up has. */
class PlateauFit {
  readonly #samples: RiseSamples;
  /** The level, the saturating part, then the equalisation and the leak where there are any. */
  readonly #columns: Float64Array[];
  /** How many of the columns, from the first, add up to the plateau. */
  readonly #levels: number;
  readonly #products: Float64Array;
  readonly #right: Float64Array;
  /** Memory of a solution. */
  readonly #matrix: Float64Array;
  readonly #sizes: Float64Array;
  readonly #ones: Float64Array;

  constructor(samples: RiseSamples, makeUp: MakeUp) {
    this.#samples = samples;
    const { sinceS } = samples;
    const settling = partOf(makeUp, 'settling');
    this.#columns = [new Float64Array(sinceS.length).fill(1), new Float64Array(sinceS.length)];
    if (settling !== undefined) this.#columns.push(sinceS.map((since) => 1 - Math.exp(-since / settling.timeS)));
    this.#levels = this.#columns.length;
    if (makeUp.leakPaPerS > 0) this.#columns.push(sinceS);
    this.#products = new Float64Array(this.#columns.length ** 2);
    this.#right = new Float64Array(this.#columns.length);
    this.#matrix = this.#products.slice();
    this.#sizes = this.#right.slice();
    this.#ones = this.#right.slice();
    for (let column = 0; column < this.#columns.length; column += 1) if (column !== 1) this.#multiply(column);
  }

  /** The plateau with a time constant, its variance at that [Pa²], and the misfit; infinite where nothing is told apart. */
  at(timeS: number): { pa: number; variance: number; misfit: number } {
    const { sinceS, vacuumPa, weights } = this.#samples;
    const columns = this.#columns;
    for (let i = 0; i < sinceS.length; i += 1) columns[1][i] = 1 - Math.exp(-sinceS[i] / timeS);
    this.#multiply(1);
    const [matrix, sizes, ones] = [this.#matrix, this.#sizes, this.#ones];
    matrix.set(this.#products);
    sizes.set(this.#right);
    const solved = solveSymmetric(matrix, sizes);
    matrix.set(this.#products);
    for (let index = 0; index < ones.length; index += 1) ones[index] = index < this.#levels ? 1 : 0;
    if (!solved || !solveSymmetric(matrix, ones))
      return { pa: Number.NaN, variance: 0, misfit: Number.POSITIVE_INFINITY };
    let pa = 0;
    let variance = 0;
    for (let index = 0; index < this.#levels; index += 1) {
      pa += sizes[index];
      variance += ones[index];
    }
    let misfit = 0;
    for (let i = 0; i < sinceS.length; i += 1) {
      let residual = vacuumPa[i];
      for (let index = 0; index < columns.length; index += 1) residual -= sizes[index] * columns[index][i];
      misfit += weights[i] * residual * residual;
    }
    return { pa, variance, misfit };
  }

  /** The products of a column with all others and with what was read. */
  #multiply(column: number): void {
    const { vacuumPa, weights } = this.#samples;
    const count = this.#columns.length;
    const own = this.#columns[column];
    for (let other = 0; other < count; other += 1) {
      const beside = this.#columns[other];
      let sum = 0;
      for (let i = 0; i < own.length; i += 1) sum += weights[i] * own[i] * beside[i];
      this.#products[column * count + other] = sum;
      this.#products[other * count + column] = sum;
    }
    let sum = 0;
    for (let i = 0; i < own.length; i += 1) sum += weights[i] * own[i] * vacuumPa[i];
    this.#right[column] = sum;
  }
}
