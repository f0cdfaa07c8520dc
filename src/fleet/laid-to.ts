import { factorSymmetric } from '../numerics/factor-symmetric.ts';
import { fitLogistic } from '../numerics/penalised-logistic.ts';
import type { CrossedCells } from './statistics/crossed-effects.ts';

/** A unit of the cells: of which grouping, by its place, and which. */
export interface CellUnit {
  readonly grouping: number;
  readonly unit: number;
}

/** To whom, or what, an excess is laid. */
export interface LaidTo {
  /** To people; to what people share; each has its part; or nothing tells them apart. */
  readonly verdict: 'people' | 'shared' | 'both' | 'not-separable';
  /** The people whom it is laid to, or who cannot be told from what they share. */
  readonly people: readonly CellUnit[];
  /** What they share that would explain it, each of it about as well. */
  readonly shared: readonly CellUnit[];
}

/** That somebody or something differs is taken to be rare: one in twenty. Common practice, no source. */
const rarity = Math.log(19);
/** By how much who differs does so [logit], a standard deviation. Common practice, no source. */
const spread = 1;
/** An explanation is taken for the right one when it is ten times as likely as the best without it. Common practice, no source. */
const certainty = Math.log(10);
/** Of those who share something, these many with the most jobs are looked at. */
const mostPeople = 12;
const fewestJobs = 5;
/** Two who share something and are alike may both have the same habit; with three that is far-fetched. */
const fewestSharers = 3;

/**
 * Whether an excess is a person's own, or comes with the crew, pump, hose or gauge that several share: explanations are weighed, each
 * unit that is taken to differ costing as much as it is rare. One bad hose explains three people better than three bad habits do; who
 * is bad among others with the same hose is so alone. Two who always share a hose, or one with a hose of his own, cannot be told from it.
 *
 * The first grouping is that of people, all others are what they share.
 *
 * @param cells the jobs, as `crossedEffects` takes them
 * @param of who or what has the excess
 * @param mayCause by grouping, whether what is shared could cause it at all
 *
 * Source: likelihoods by Laplace’s approximation, textbook. Accuracy: by simulation (`npm run fleet-power`).
 */
export function laidTo(
  cells: CrossedCells,
  of: CellUnit,
  mayCause: (grouping: number) => boolean = () => true,
): LaidTo {
  const { people, shared, rows } = around(cells, of, mayCause);
  const explanations = new Explanations(cells, rows);
  const best = explanations.best([...people, ...shared]);
  const isWorse = (units: readonly CellUnit[]): boolean => best.score - explanations.best(units).score >= certainty;
  // A person must be needed for it himself, something shared needs any of its people.
  const isPersonal = isWorse(of.grouping === 0 ? [...people, ...shared].filter((unit) => !isSame(unit, of)) : shared);
  const bestShared = explanations.best(shared).score;
  const explaining = shared.filter((unit) => {
    const { score, effects } = explanations.weigh([unit]);
    return bestShared - score < certainty && effects[0] > 0;
  });
  const isShared = isWorse(people) && explaining.some((unit) => canBeTold(cells, unit));
  const inBest = best.units.filter((unit, at) => unit.grouping === 0 && best.effects[at] > 0);
  return {
    verdict: isPersonal && isShared ? 'both' : isPersonal ? 'people' : isShared ? 'shared' : 'not-separable',
    people: of.grouping === 0 ? [of] : isPersonal ? inBest : people,
    shared: explaining.length > 0 ? explaining : shared,
  };
}

/** Whether three people share it, or somebody worked both with and without it: else nothing sets it apart from its people. */
function canBeTold(cells: CrossedCells, { grouping, unit }: CellUnit): boolean {
  const isWith = (row: number): boolean => cells.units[grouping][row] === unit;
  const enough = (rows: Int32Array): CellUnit[] =>
    byJobs(cells, rows, 0).flatMap((person) => (person.jobs >= fewestJobs ? [{ grouping: 0, unit: person.unit }] : []));
  const sharers = enough(rowsWhere(cells, isWith));
  if (sharers.length >= fewestSharers) return true;
  const apart = enough(rowsWhere(cells, (row) => !isWith(row)));
  return sharers.some((person) => apart.some((other) => isSame(person, other)));
}

const isSame = (one: CellUnit, other: CellUnit): boolean => one.grouping === other.grouping && one.unit === other.unit;

/** What was shared in at least half of the jobs, with whom, and the cells of all of these. */
function around(
  cells: CrossedCells,
  of: CellUnit,
  mayCause: (grouping: number) => boolean,
): { people: readonly CellUnit[]; shared: readonly CellUnit[]; rows: Int32Array } {
  const has = (row: number, { grouping, unit }: CellUnit): boolean => cells.units[grouping][row] === unit;
  const own = rowsWhere(cells, (row) => has(row, of));
  const all = own.reduce((sum, row) => sum + cells.jobs[row], 0);
  const shared = cells.units.slice(1).flatMap((_, at): CellUnit[] => {
    if (at + 1 === of.grouping) return [of];
    if (!mayCause(at + 1)) return [];
    const [most] = byJobs(cells, own, at + 1);
    return most !== undefined && most.jobs >= all / 2 ? [{ grouping: at + 1, unit: most.unit }] : [];
  });
  const sharers = rowsWhere(cells, (row) => has(row, of) || shared.some((unit) => has(row, unit)));
  const people = byJobs(cells, sharers, 0)
    .filter(({ unit, jobs }, at) => (jobs >= fewestJobs && at < mostPeople) || isSame({ grouping: 0, unit }, of))
    .map(({ unit }): CellUnit => ({ grouping: 0, unit }));
  const rows = rowsWhere(cells, (row) => [...people, ...shared].some((unit) => has(row, unit)));
  return { people, shared, rows };
}

function rowsWhere(cells: CrossedCells, isWanted: (row: number) => boolean): Int32Array {
  return Int32Array.from(cells.jobs.keys()).filter(isWanted);
}

/** Units of a grouping in some cells, those with the most jobs first. */
function byJobs(cells: CrossedCells, rows: Int32Array, grouping: number): { unit: number; jobs: number }[] {
  const jobs = new Map<number, number>();
  for (const row of rows) {
    const unit = cells.units[grouping][row];
    if (unit >= 0) jobs.set(unit, (jobs.get(unit) ?? 0) + cells.jobs[row]);
  }
  return Array.from(jobs, ([unit, count]) => ({ unit, jobs: count })).sort(
    (a, b) => b.jobs - a.jobs || a.unit - b.unit,
  );
}

/** Units that may differ, how likely the cells are then, and by how much each differs [logit]. */
interface Explanation {
  readonly units: readonly CellUnit[];
  readonly score: number;
  readonly effects: ArrayLike<number>;
}

/** Explanations of some cells, beside the common level of all others. */
class Explanations {
  readonly #cells: CrossedCells;
  readonly #rows: Int32Array;
  readonly #offsets: Float64Array;
  readonly #found: Float64Array;
  readonly #jobs: Float64Array;

  constructor(cells: CrossedCells, rows: Int32Array) {
    this.#cells = cells;
    this.#rows = rows;
    const shift = outerShift(cells, rows);
    this.#offsets = Float64Array.from(rows, (row) => cells.expectedLogit[row] + shift);
    this.#found = Float64Array.from(rows, (row) => cells.found[row]);
    this.#jobs = Float64Array.from(rows, (row) => cells.jobs[row]);
  }

  /** The best explanation by some units, by one at least: the one that adds most goes first, until none is worth its rarity. */
  best(candidates: readonly CellUnit[]): Explanation {
    let best: Explanation = { units: [], score: Number.NEGATIVE_INFINITY, effects: [] };
    for (;;) {
      const { units } = best;
      const tried = candidates
        .filter((candidate) => !units.includes(candidate))
        .map((candidate) => this.weigh([...units, candidate]));
      const next = tried.reduce((most, each) => (each.score > most.score ? each : most), best);
      if (next === best) return best;
      best = next;
    }
  }

  /** How likely the cells are if these units differ and no others, and that they do: a logarithm, by Laplace's approximation. */
  weigh(units: readonly CellUnit[]): Explanation {
    const width = units.length;
    const columns = new Int32Array(this.#rows.length * width);
    for (const [at, row] of this.#rows.entries())
      for (const [column, { grouping, unit }] of units.entries())
        columns[at * width + column] = this.#cells.units[grouping][row] === unit ? column : -1;
    const fit = fitLogistic(
      { width, columns, successes: this.#found, trials: this.#jobs, offsets: this.#offsets },
      new Float64Array(width).fill(1 / spread ** 2),
    );
    if (fit === undefined) throw new Error('every effect has a penalty: it can always be told');
    const squares = fit.coefficients.reduce((sum, effect) => sum + effect ** 2, 0);
    // How much narrower than before the effects are known: what could have been anything explains nothing well.
    const narrowed = logDeterminant(fit.covariance, width) / 2 - width * Math.log(spread);
    const score =
      likelihood(this.#found, this.#jobs, fit.chances) - squares / (2 * spread ** 2) + narrowed - width * rarity;
    return { units, score, effects: fit.coefficients };
  }
}

/** By how much the jobs of all other cells differ from what was expected of them [logit]. */
function outerShift(cells: CrossedCells, rows: Int32Array): number {
  const isInner = new Uint8Array(cells.jobs.length);
  for (const row of rows) isInner[row] = 1;
  let [excess, variance] = [0, 0];
  for (let row = 0; row < isInner.length; row += 1) {
    if (isInner[row] === 1) continue;
    const chance = chanceOf(cells.expectedLogit[row]);
    excess += cells.found[row] - cells.jobs[row] * chance;
    variance += cells.jobs[row] * chance * (1 - chance);
  }
  return variance === 0 ? 0 : excess / variance;
}

function chanceOf(logit: number): number {
  return 1 / (1 + Math.exp(-logit));
}

function likelihood(found: Float64Array, jobs: Float64Array, chances: Float64Array): number {
  let value = 0;
  for (let row = 0; row < jobs.length; row += 1) {
    if (found[row] > 0) value += found[row] * Math.log(chances[row]);
    if (found[row] < jobs[row]) value += (jobs[row] - found[row]) * Math.log1p(-chances[row]);
  }
  return value;
}

function logDeterminant(matrix: Float64Array, size: number): number {
  const factor = matrix.slice();
  factorSymmetric(factor, size);
  let sum = 0;
  for (let at = 0; at < size; at += 1) sum += 2 * Math.log(factor[at * size + at]);
  return sum;
}
