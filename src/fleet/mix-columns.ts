import type { LogisticRows } from '../numerics/penalised-logistic.ts';
import type { FleetJobs } from './fleet-jobs.ts';
import { type MixFactorName, mixFactors } from './job-mix.ts';
import type { Block } from './statistics/estimated-spreads.ts';

const daysOfYear = 365.25;
const gearFactors = new Set(mixFactors.filter(({ isOfGear }) => isOfGear).map(({ name }) => name));
/** Gear that fewer people have is not told from them. Common practice, no source. */
const fewestPeople = 3;

/**
 * Jobs as rows of a logistic model: what is common to all, the two columns of the season, then the level of each factor, "not on record"
 * among them.
 */
export class MixColumns {
  /** The season, then each factor. */
  readonly blocks: readonly Block[];
  /** Columns that each row has. */
  readonly width: number;
  /** Columns in all. */
  readonly size: number;
  readonly #days: Int32Array;
  readonly #levels: readonly Uint8Array[];
  readonly #firsts: readonly number[];
  /** Cosine and sine of the season, by day since the first job. */
  readonly #waves: Float64Array;

  constructor(jobs: FleetJobs, factors: readonly MixFactorName[]) {
    this.#days = jobs.days;
    this.#waves = waves(jobs.days);
    this.#levels = factors.map((name) => (gearFactors.has(name) ? sharedLevels(jobs, name) : jobs.mix[name]));
    const blocks: Block[] = [{ first: 1, end: 3 }];
    for (const levels of this.#levels) {
      const first = blocks[blocks.length - 1].end;
      blocks.push({ first, end: first + highest(levels) + 1 });
    }
    this.#firsts = blocks.slice(1).map(({ first }) => first);
    this.blocks = blocks;
    this.width = this.#levels.length + 3;
    this.size = blocks[blocks.length - 1].end;
  }

  /** Writes the columns of a job, and what stands in them, from a place on. */
  row(job: number, columns: Int32Array, values: Float64Array, from = 0): void {
    const day = 2 * (this.#days[job] - this.#days[0]);
    for (let at = 0; at < 3; at += 1) columns[from + at] = at;
    values[from] = 1;
    values[from + 1] = this.#waves[day];
    values[from + 2] = this.#waves[day + 1];
    for (let at = 0; at < this.#levels.length; at += 1) {
      columns[from + 3 + at] = this.#firsts[at] + this.#levels[at][job];
      values[from + 3 + at] = 1;
    }
  }

  rows(of: Int32Array): Pick<LogisticRows, 'width' | 'columns' | 'values'> {
    const columns = new Int32Array(of.length * this.width);
    const values = new Float64Array(of.length * this.width);
    for (let at = 0; at < of.length; at += 1) this.row(of[at], columns, values, at * this.width);
    return { width: this.width, columns, values };
  }

  /** What the mix of each job comes to [logit]. */
  mixLogits(of: Int32Array, coefficients: Float64Array): Float64Array {
    const logits = new Float64Array(of.length);
    for (let place = 0; place < of.length; place += 1) {
      const day = 2 * (this.#days[of[place]] - this.#days[0]);
      logits[place] = coefficients[0] + coefficients[1] * this.#waves[day] + coefficients[2] * this.#waves[day + 1];
    }
    for (const [at, levels] of this.#levels.entries()) {
      const own = coefficients.subarray(this.#firsts[at]);
      for (let place = 0; place < of.length; place += 1) logits[place] += own[levels[of[place]]];
    }
    return logits;
  }
}

/** Cosine and sine of the time of the year of each day from the first job to the last. */
function waves(days: Int32Array): Float64Array {
  const table = new Float64Array(2 * ((days.at(-1) ?? 0) - (days[0] ?? 0) + 1));
  for (let at = 0; at < table.length / 2; at += 1) {
    const angle = (2 * Math.PI * (days[0] + at)) / daysOfYear;
    [table[2 * at], table[2 * at + 1]] = [Math.cos(angle), Math.sin(angle)];
  }
  return table;
}

function highest(levels: Uint8Array): number {
  let most = 0;
  for (let job = 0; job < levels.length; job += 1) if (levels[job] > most) most = levels[job];
  return most;
}

/** The levels of a factor that several people have; any other counts as the commonest, since the gear itself tells of it. */
function sharedLevels(jobs: FleetJobs, name: MixFactorName): Uint8Array {
  const levels = jobs.mix[name];
  const { of } = jobs.units.technician;
  const counts = new Int32Array(highest(levels) + 1);
  const people = Array.from(counts, () => new Set<number>());
  for (let job = 0; job < levels.length; job += 1) {
    counts[levels[job]] += 1;
    if (of[job] >= 0 && people[levels[job]].size < fewestPeople) people[levels[job]].add(of[job]);
  }
  const commonest = counts.indexOf(Math.max(...counts));
  const counted = people.map(({ size }, level) => (size >= fewestPeople ? level : commonest));
  return levels.map((level) => counted[level]);
}
