import type { LogisticRows } from '../numerics/penalised-logistic.ts';
import type { FleetJobs } from './fleet-jobs.ts';
import { type MixFactorName, mixFactors } from './job-mix.ts';

/** Coefficients of a model that belong together, from `first` to before `end`. */
export interface Block {
  readonly first: number;
  readonly end: number;
}

const daysOfYear = 365.25;
const gearFactors = new Set(mixFactors.filter(({ isOfGear }) => isOfGear).map(({ name }) => name));
/** Gear that fewer people have is not told from them. Common practice, no source. */
const fewestPeople = 3;

/**
 * Jobs as rows of a logistic model: what is common to all, the two columns of the season, the levels of each factor, "not on record"
 * among them, then perhaps who did it.
 */
export class MixColumns {
  /** The season, each factor, then the people if they are asked for. */
  readonly blocks: readonly Block[];
  readonly people: Block | undefined;
  readonly #days: Int32Array;
  readonly #levels: readonly Uint8Array[];
  readonly #firsts: readonly number[];
  readonly #technicians: Int32Array;

  /** @param withPeople whether technicians have coefficients, too */
  constructor(jobs: FleetJobs, factors: readonly MixFactorName[], withPeople: boolean) {
    this.#days = jobs.days;
    this.#levels = factors.map((name) => (gearFactors.has(name) ? sharedLevels(jobs, name) : jobs.mix[name]));
    this.#technicians = jobs.units.technician.of;
    const blocks: Block[] = [{ first: 1, end: 3 }];
    const add = (count: number): void => {
      const first = blocks[blocks.length - 1].end;
      blocks.push({ first, end: first + count });
    };
    for (const levels of this.#levels) add(highest(levels) + 1);
    this.#firsts = blocks.slice(1).map(({ first }) => first);
    if (withPeople) add(jobs.units.technician.ids.length);
    this.blocks = blocks;
    this.people = withPeople ? blocks.at(-1) : undefined;
  }

  rows(of: Int32Array): Pick<LogisticRows, 'width' | 'columns' | 'values'> {
    const width = this.#levels.length + (this.people === undefined ? 3 : 4);
    const columns = new Int32Array(of.length * width);
    const values = new Float64Array(of.length * width).fill(1);
    for (const [row, job] of of.entries()) {
      const start = row * width;
      const angle = this.#angle(job);
      [columns[start + 1], columns[start + 2]] = [1, 2];
      [values[start + 1], values[start + 2]] = [Math.cos(angle), Math.sin(angle)];
      for (const [at, levels] of this.#levels.entries()) columns[start + 3 + at] = this.#firsts[at] + levels[job];
      if (this.people === undefined) continue;
      const technician = this.#technicians[job];
      columns[start + width - 1] = technician < 0 ? -1 : this.people.first + technician;
    }
    return { width, columns, values };
  }

  /** What the mix of each job comes to, whoever did it [logit]. */
  mixLogits(of: Int32Array, coefficients: Float64Array): Float64Array {
    // Days ascend: the wave of a day is that of the job before, mostly.
    const logits = new Float64Array(of.length);
    let [day, wave] = [Number.NaN, 0];
    for (let place = 0; place < of.length; place += 1) {
      if (this.#days[of[place]] !== day) {
        day = this.#days[of[place]];
        const angle = this.#angle(of[place]);
        wave = coefficients[0] + coefficients[1] * Math.cos(angle) + coefficients[2] * Math.sin(angle);
      }
      logits[place] = wave;
    }
    for (const [at, levels] of this.#levels.entries()) {
      const own = coefficients.subarray(this.#firsts[at]);
      for (let place = 0; place < of.length; place += 1) logits[place] += own[levels[of[place]]];
    }
    return logits;
  }

  #angle(job: number): number {
    return (2 * Math.PI * this.#days[job]) / daysOfYear;
  }
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
