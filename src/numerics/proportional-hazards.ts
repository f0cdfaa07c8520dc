import { invertSymmetric } from './invert-symmetric.ts';
import { newtonClimb } from './newton-climb.ts';
import { RiskSets, type WatchedRows } from './risk-sets.ts';

/** Rows of a model of proportional hazards; each names the few columns that it has. */
export interface HazardRows extends WatchedRows {
  /** Columns of a row at most. */
  readonly width: number;
  /** `width` columns a row, ascending, one row after the other; −1 where there are fewer, none twice in a row. */
  readonly columns: Int32Array;
  /** What stands in these columns; absent: 1 everywhere. */
  readonly values?: Float64Array;
  /** For how many a row stands among those at risk, where only some of those without the event are there; absent: 1. Those with the event: 1. */
  readonly weights?: Float64Array;
}

/** A model of proportional hazards that was fitted. */
export interface HazardFit {
  /** Logarithms of hazard ratios. */
  readonly coefficients: Float64Array;
  /** Inverse of the penalised information, row by row. */
  readonly covariance: Float64Array;
  /** Logarithm of the partial likelihood, without the penalty and less the penalty. */
  readonly logLikelihood: number;
  readonly penalisedLogLikelihood: number;
  /** Whether the last step was small enough; what stands here is the best so far if not. */
  readonly isConverged: boolean;
}

/**
 * Cox's regression by the partial likelihood, with a penalty on the square of each coefficient, so that a column that no event, or every
 * event, has is drawn to 0 instead of running away. Ties by Efron's approximation.
 *
 * @param rows the data
 * @param penalties one a column, 0 or more: that of a normal distribution around 0 is 1 over its variance
 * @param start coefficients to begin with, as those of a fit with other penalties
 * @returns undefined where the columns without a penalty cannot be told apart
 *
 * Source: `cox-1972`, `efron-1977` for ties, `verweij-van-houwelingen-1994` for the penalty. Accuracy: reproduces the fits of
 * `freireich-1963` to the places printed.
 *
 * @example
 * // Rows with the column and without take turns; by hand, the ratio is the positive root of h² − h − 4.
 * const rows = { width: 1, columns: Int32Array.of(0, 0, -1, -1), stops: Float64Array.of(1, 3, 2, 4), events: Uint8Array.of(1, 1, 1, 1) };
 * fitProportionalHazards(rows, Float64Array.of(0))?.coefficients[0] // 0.9406136
 */
export function fitProportionalHazards(
  rows: HazardRows,
  penalties: Float64Array,
  start: Float64Array = new Float64Array(penalties.length),
): HazardFit | undefined {
  const likelihood = new PartialLikelihood(rows, penalties);
  const summit = newtonClimb(
    (coefficients) => likelihood.at(coefficients),
    (_, { information, score }) => ({ information: information.slice(), score: score.slice() }),
    start,
  );
  if (summit === undefined) return undefined;
  const { coefficients, place, isConverged } = summit;
  const { logLikelihood, value: penalisedLogLikelihood, information: covariance } = place;
  if (!invertSymmetric(covariance)) return undefined;
  return { coefficients, covariance, logLikelihood, penalisedLogLikelihood, isConverged };
}

/**
 * Logarithm of the hazard of a row beside one without any column.
 *
 * @example rowEffect({ width: 2, columns: Int32Array.of(1, -1), stops: Float64Array.of(1), events: Uint8Array.of(0) }, 0, Float64Array.of(2, 3)) // 3
 */
export function rowEffect({ width, columns, values }: HazardRows, row: number, coefficients: Float64Array): number {
  let sum = 0;
  for (let at = row * width; at < (row + 1) * width; at += 1) {
    const column = columns[at];
    if (column >= 0) sum += coefficients[column] * (values === undefined ? 1 : values[at]);
  }
  return sum;
}

/** The columns that rows have, one row after the other, without gaps. */
class FilledColumns {
  /** Where each row begins; one more for the end. */
  readonly starts: Int32Array;
  readonly columns: Int32Array;
  readonly values: Float64Array;

  constructor({ width, columns, values, stops }: HazardRows) {
    this.starts = new Int32Array(stops.length + 1);
    this.columns = new Int32Array(columns.length);
    this.values = new Float64Array(columns.length);
    let filled = 0;
    for (let row = 0; row < stops.length; row += 1) {
      for (let at = row * width; at < (row + 1) * width; at += 1) {
        if (columns[at] < 0) continue;
        this.columns[filled] = columns[at];
        this.values[filled] = values === undefined ? 1 : values[at];
        filled += 1;
      }
      this.starts[row + 1] = filled;
    }
  }

  effect(row: number, coefficients: Float64Array): number {
    let sum = 0;
    for (let at = this.starts[row]; at < this.starts[row + 1]; at += 1)
      sum += coefficients[this.columns[at]] * this.values[at];
    return sum;
  }

  addRow(to: Float64Array, row: number): void {
    for (let at = this.starts[row]; at < this.starts[row + 1]; at += 1) to[this.columns[at]] += this.values[at];
  }
}

/** Sums over a risk set: of hazards, of hazards times columns, and times pairs of columns, on and below the diagonal. */
class Sums {
  zeroth = 0;
  readonly first: Float64Array;
  readonly second: Float64Array;
  readonly #filled: FilledColumns;
  readonly #size: number;

  constructor(filled: FilledColumns, size: number) {
    this.#filled = filled;
    this.#size = size;
    this.first = new Float64Array(size);
    this.second = new Float64Array(size * size);
  }

  clear(): void {
    this.zeroth = 0;
    this.first.fill(0);
    this.second.fill(0);
  }

  add(row: number, weight: number): void {
    const { starts, columns, values } = this.#filled;
    const [from, to, size, first, second] = [starts[row], starts[row + 1], this.#size, this.first, this.second];
    this.zeroth += weight;
    for (let at = from; at < to; at += 1) {
      const own = weight * values[at];
      const column = columns[at];
      const line = column * size;
      first[column] += own;
      for (let before = from; before <= at; before += 1) second[line + columns[before]] += own * values[before];
    }
  }
}

/** What does not change with the coefficients. */
interface PreparedRows {
  readonly sets: RiskSets;
  readonly filled: FilledColumns;
}

const known = new WeakMap<HazardRows, PreparedRows>();

/** The same rows are fitted again and again, with other penalties. */
function prepared(rows: HazardRows): PreparedRows {
  const found = known.get(rows) ?? { sets: new RiskSets(rows), filled: new FilledColumns(rows) };
  known.set(rows, found);
  return found;
}

/** Where the likelihood stands, how it rises with each coefficient, and how sharply it bends; the last two with the penalty. */
interface Likelihood {
  readonly value: number;
  readonly logLikelihood: number;
  readonly score: Float64Array;
  readonly information: Float64Array;
}

class PartialLikelihood {
  readonly #rows: HazardRows;
  readonly #penalties: Float64Array;
  readonly #sets: RiskSets;
  readonly #filled: FilledColumns;
  readonly #all: Sums;
  readonly #own: Sums;

  constructor(rows: HazardRows, penalties: Float64Array) {
    this.#rows = rows;
    this.#penalties = penalties;
    const { sets, filled } = prepared(rows);
    this.#sets = sets;
    this.#filled = filled;
    this.#all = new Sums(filled, penalties.length);
    this.#own = new Sums(filled, penalties.length);
  }

  at(coefficients: Float64Array): Likelihood {
    const [filled, all, own, size] = [this.#filled, this.#all, this.#own, this.#penalties.length];
    const { effects, hazards } = this.#effects(coefficients);
    const score = Float64Array.from(this.#penalties, (penalty, column) => -penalty * coefficients[column]);
    const information = new Float64Array(size * size);
    for (let column = 0; column < size; column += 1) information[column * size + column] = this.#penalties[column];
    let logLikelihood = 0;
    this.#sets.walk({
      begin: () => all.clear(),
      add: (row) => all.add(row, hazards[row]),
      remove: (row) => all.add(row, -hazards[row]),
      events: (_, happened) => {
        // Of a single event nothing is left out of its risk set.
        const isTied = happened.length > 1;
        if (isTied) own.clear();
        for (const row of happened) {
          if (isTied) own.add(row, hazards[row]);
          logLikelihood += effects[row];
          filled.addRow(score, row);
        }
        const sums = efronSums(all.zeroth, isTied ? own.zeroth : 0, happened.length);
        logLikelihood -= sums.logarithms;
        if (isTied) addTiedCurvature(information, score, all, own, sums);
        else addCurvature(information, score, all, sums);
      },
    });
    const penalty = coefficients.reduce((sum, value, column) => sum + 0.5 * this.#penalties[column] * value ** 2, 0);
    return { value: logLikelihood - penalty, logLikelihood, score, information };
  }

  /** By row: the logarithm of its hazard, and the hazard of all that it stands for. */
  #effects(coefficients: Float64Array): { effects: Float64Array; hazards: Float64Array } {
    const { stops, weights } = this.#rows;
    const effects = new Float64Array(stops.length);
    const hazards = new Float64Array(stops.length);
    for (let row = 0; row < stops.length; row += 1) {
      effects[row] = this.#filled.effect(row, coefficients);
      hazards[row] = Math.exp(effects[row]) * (weights === undefined ? 1 : weights[row]);
    }
    return { effects, hazards };
  }
}

/** Sums over the events of one time, of which each leaves an equal part of all of them out of its risk set. */
interface EfronSums {
  readonly logarithms: number;
  /** Sums of 1/s, f/s, 1/s², f/s² and f²/s², for s what is left of the hazards and f the part left out. */
  readonly inverse: number;
  readonly part: number;
  readonly square: number;
  readonly squarePart: number;
  readonly squareParts: number;
}

function efronSums(all: number, own: number, count: number): EfronSums {
  let [logarithms, inverse, part, square, squarePart, squareParts] = [0, 0, 0, 0, 0, 0];
  for (let each = 0; each < count; each += 1) {
    const share = each / count;
    const left = all - share * own;
    logarithms += Math.log(left);
    inverse += 1 / left;
    part += share / left;
    square += 1 / left ** 2;
    squarePart += share / left ** 2;
    squareParts += share ** 2 / left ** 2;
  }
  return { logarithms, inverse, part, square, squarePart, squareParts };
}

/** Of a single event. */
function addCurvature(information: Float64Array, score: Float64Array, all: Sums, { inverse, square }: EfronSums): void {
  const size = score.length;
  const { first, second } = all;
  for (let column = 0; column < size; column += 1) {
    score[column] -= first[column] * inverse;
    const byAll = first[column] * square;
    for (let at = column * size, other = 0; other <= column; at += 1, other += 1)
      information[at] += second[at] * inverse - byAll * first[other];
  }
}

function addTiedCurvature(information: Float64Array, score: Float64Array, all: Sums, own: Sums, sums: EfronSums): void {
  const size = score.length;
  const { inverse, part, square, squarePart, squareParts } = sums;
  for (let column = 0; column < size; column += 1) {
    const [of, ownOf] = [all.first[column], own.first[column]];
    score[column] -= of * inverse - ownOf * part;
    const [byAll, byOwn] = [of * square - ownOf * squarePart, of * squarePart - ownOf * squareParts];
    for (let other = 0; other <= column; other += 1) {
      const at = column * size + other;
      information[at] +=
        all.second[at] * inverse - own.second[at] * part - byAll * all.first[other] + byOwn * own.first[other];
    }
  }
}
