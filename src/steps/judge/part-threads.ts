import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import { received } from '../sent-error.ts';
import { PartMaker } from './part-maker.ts';
import type { Answer, PartSettings, PartTask, Request } from './part-messages.ts';

/**
 * Makes parts on other threads, which read the segments themselves. Several may be asked for ahead; each goes to the thread with
 * the fewest waiting. Without threads it is done here.
 */
export class PartThreads {
  readonly #here: PartMaker;
  readonly #threads: PartThread[];

  /** @param threads other threads to use; 0 does everything here */
  constructor(settings: PartSettings, threads = availableParallelism()) {
    this.#here = new PartMaker(settings.policy);
    this.#threads = Array.from({ length: threads }, () => new PartThread(settings));
  }

  /** How many parts may be asked for ahead without a thread running dry. */
  get ahead(): number {
    return 2 * this.#threads.length;
  }

  /** Fulfilled when the part is written. */
  make(task: PartTask): Promise<void> {
    const [thread] = this.#threads.toSorted((a, b) => a.waiting - b.waiting);
    return thread === undefined ? this.#here.make(task) : thread.make(task);
  }

  /** Ends the threads once the parts under way are done; those that wait are refused. */
  async end(): Promise<void> {
    await Promise.all([this.#here, ...this.#threads].map((each) => each.end()));
  }
}

/**
 * What a thread may hold of fresh memory before it is looked through: the usual takes a hundred megabytes more a thread, and no less time.
 */
const mostYoungMiB = 16;

/** One other thread, started at its first part; answers in the order of asking. */
class PartThread {
  readonly #settings: PartSettings;
  #worker: Worker | undefined;
  readonly #asked: { resolve: () => void; reject: (reason: Error) => void }[] = [];

  constructor(settings: PartSettings) {
    this.#settings = settings;
  }

  get waiting(): number {
    return this.#asked.length;
  }

  make(task: PartTask): Promise<void> {
    const worker = this.#worker ?? this.#start();
    return new Promise((resolve, reject) => {
      this.#asked.push({ resolve, reject });
      worker.postMessage(task satisfies Request);
    });
  }

  /** Waits for as long as the part under way takes: ended by force within a query, a thread takes the whole process along. */
  async end(): Promise<void> {
    const worker = this.#worker;
    if (worker === undefined) return;
    const gone = new Promise((resolve) => worker.once('exit', resolve));
    worker.postMessage('end' satisfies Request);
    await gone;
  }

  #start(): Worker {
    const extension = import.meta.url.endsWith('.ts') ? 'ts' : 'js';
    const worker = new Worker(new URL(`part-worker.${extension}`, import.meta.url), {
      workerData: this.#settings,
      resourceLimits: { maxYoungGenerationSizeMb: mostYoungMiB },
    });
    worker.on('message', (answer: Answer) => {
      const asked = this.#asked.shift();
      if (answer === 'done') asked?.resolve();
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
