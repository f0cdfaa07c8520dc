import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import { SliceFacts, type SlicedFacts, type SliceTask } from './slice-facts.ts';
import type { Answer, Request } from './measured-facts-messages.ts';
import { received } from './sent-error.ts';

/**
 * Computes the facts of the readings of slices, on other threads that read the segments themselves. Slices may be asked for ahead;
 * each goes to the thread with the fewest waiting. Without threads, or for a single slice, it is done here.
 */
export class MeasuredFactsPool {
  readonly #here = new SliceFacts();
  readonly #threads: MeasuredFactsThread[];

  /** @param threads other threads to use; 0 does everything here */
  constructor(threads = availableParallelism()) {
    this.#threads = Array.from({ length: threads }, () => new MeasuredFactsThread());
  }

  /** How many slices may be asked for ahead without a thread running dry. */
  get ahead(): number {
    return 2 * this.#threads.length;
  }

  facts(task: SliceTask): Promise<SlicedFacts[]> {
    const [thread] = this.#threads.toSorted((a, b) => a.waiting - b.waiting);
    return thread === undefined ? this.#here.of(task) : thread.facts(task);
  }

  /** Ends the threads once the slices under way are done; those that wait are refused. */
  async end(): Promise<void> {
    await Promise.all([this.#here, ...this.#threads].map((each) => each.end()));
  }
}

/** One other thread, started at its first slice; answers in the order of asking. */
class MeasuredFactsThread {
  #worker: Worker | undefined;
  readonly #asked: { resolve: (facts: SlicedFacts[]) => void; reject: (reason: Error) => void }[] = [];

  get waiting(): number {
    return this.#asked.length;
  }

  facts(task: SliceTask): Promise<SlicedFacts[]> {
    const worker = this.#worker ?? this.#start();
    return new Promise((resolve, reject) => {
      this.#asked.push({ resolve, reject });
      worker.postMessage(task satisfies Request);
    });
  }

  /** Waits for as long as the slice under way takes: ended by force within a query, a thread takes the whole process along. */
  async end(): Promise<void> {
    const worker = this.#worker;
    if (worker === undefined) return;
    const gone = new Promise((resolve) => worker.once('exit', resolve));
    worker.postMessage('end' satisfies Request);
    await gone;
  }

  #start(): Worker {
    const extension = import.meta.url.endsWith('.ts') ? 'ts' : 'js';
    const worker = new Worker(new URL(`measured-facts-worker.${extension}`, import.meta.url));
    worker.on('message', (answer: Answer) => {
      const asked = this.#asked.shift();
      if ('facts' in answer) asked?.resolve(answer.facts);
      else asked?.reject(received(answer));
    });
    worker.on('error', (error) => this.#refuse(error));
    worker.on('exit', () => {
      this.#worker = undefined;
      this.#refuse(new Error('its thread is over'));
    });
    this.#worker = worker;
    return worker;
  }

  /** Refuses all that was asked. */
  #refuse(reason: unknown): void {
    const error = reason instanceof Error ? reason : new Error(String(reason));
    for (const { reject } of this.#asked.splice(0)) reject(error);
  }
}
