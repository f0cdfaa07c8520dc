import type { LogisticRows } from '../numerics/penalised-logistic.ts';
import type { FleetJobs } from './fleet-jobs.ts';
import type { MixFactorName } from './job-mix.ts';

/** Coefficients of a model that belong together, from `first` to before `end`. */
export interface Block {
  readonly first: number;
  readonly end: number;
}

const daysOfYear = 365.25;

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
    this.#levels = factors.map((name) => jobs.mix[name]);
    this.#technicians = jobs.units.technician.of;
    const blocks: Block[] = [{ first: 1, end: 3 }];
    const add = (count: number): void => {
      const first = blocks[blocks.length - 1].end;
      blocks.push({ first, end: first + count });
    };
    for (const levels of this.#levels) add(levels.reduce((most, level) => Math.max(most, level), 0) + 1);
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
    const waves = new Map<number, number>();
    const waveOf = (job: number): number => {
      const angle = this.#angle(job);
      return coefficients[0] + coefficients[1] * Math.cos(angle) + coefficients[2] * Math.sin(angle);
    };
    const logits = Float64Array.from(of, (job) => {
      const wave = waves.get(this.#days[job]) ?? waveOf(job);
      waves.set(this.#days[job], wave);
      return wave;
    });
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
