import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { Facts } from '../records/tables/facts.ts';
import type { ChunkSource } from '../store/segment-reader.ts';
import { type SliceTask, sliceFacts } from './slice-facts.ts';

type Answer = { facts: Partial<Facts>[] } | { problem: string };

/**
 * Computes the vacuum facts of slices, on other threads that read the segments themselves. Slices may be asked for ahead;
 * each goes to the thread with the fewest waiting. Without threads, or for a single slice, it is done here.
 */
export class VacuumFactsPool {
  readonly #source: ChunkSource;
  readonly #threads: VacuumFactsThread[];

  /**
   * @param source what reads the segments where it is done here
   * @param threads other threads to use; 0 does everything here
   */
  constructor(source: ChunkSource, threads = availableParallelism()) {
    this.#source = source;
    this.#threads = Array.from({ length: threads }, () => new VacuumFactsThread());
  }

  /** How many slices may be asked for ahead without a thread running dry. */
  get ahead(): number {
    return 2 * this.#threads.length;
  }

  facts(task: SliceTask): Promise<Partial<Facts>[]> {
    const [thread] = this.#threads.toSorted((a, b) => a.waiting - b.waiting);
    return thread === undefined ? sliceFacts(this.#source, task) : thread.facts(task);
  }

  async end(): Promise<void> {
    await Promise.all(this.#threads.map((thread) => thread.end()));
  }
}

/** One other thread, started at its first slice; answers in the order of asking. */
class VacuumFactsThread {
  #worker: Worker | undefined;
  readonly #asked: { resolve: (facts: Partial<Facts>[]) => void; reject: (reason: Error) => void }[] = [];

  get waiting(): number {
    return this.#asked.length;
  }

  facts(task: SliceTask): Promise<Partial<Facts>[]> {
    this.#worker ??= this.#start();
    return new Promise((resolve, reject) => {
      this.#asked.push({ resolve, reject });
      this.#worker?.postMessage(task);
    });
  }

  async end(): Promise<void> {
    await this.#worker?.terminate();
  }

  #start(): Worker {
    const extension = import.meta.url.endsWith('.ts') ? 'ts' : 'js';
    const worker = new Worker(new URL(`vacuum-facts-worker.${extension}`, import.meta.url));
    worker.on('message', (answer: Answer) => {
      const asked = this.#asked.shift();
      if ('facts' in answer) asked?.resolve(answer.facts);
      else asked?.reject(new Error(answer.problem));
    });
    worker.on('error', (error) => {
      for (const { reject } of this.#asked.splice(0)) reject(error);
    });
    return worker;
  }
}
