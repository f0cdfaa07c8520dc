import { Worker } from 'node:worker_threads';
import type { Reader } from '../../pages/page-shell.ts';
import { type PageTask, renderTask } from './page-task.ts';

/** With fewer pages a thread takes longer to start than they take. */
const fewestPages = 12;

/** Renders the pages that are many on another thread while this one works out what the others say; few of them here, when they are asked for. */
export class PageThread {
  readonly #reader: Reader;
  #worker: Worker | undefined;
  /** Why it is over, once it is. */
  #over: Error | undefined;
  /** Answers come in the order of asking. */
  readonly #asked: { resolve: (page: string) => void; reject: (reason: Error) => void }[] = [];

  constructor(reader: Reader) {
    this.#reader = reader;
  }

  /** Begins some pages, each of which is awaited by the function that stands for it. */
  render(tasks: readonly PageTask[]): (() => Promise<string>)[] {
    if (this.#worker === undefined && tasks.length < fewestPages)
      return tasks.map((task) => () => renderTask(task, this.#reader));
    this.#worker ??= this.#start();
    return tasks.map((task) => {
      const page = this.#ask(task);
      return () => page;
    });
  }

  /** Ends the thread, whatever it is at. */
  async close(): Promise<void> {
    await this.#worker?.terminate();
  }

  #ask(task: PageTask): Promise<string> {
    const page = new Promise<string>((resolve, reject) => this.#asked.push({ resolve, reject }));
    // Looked at when its turn comes; until then a refusal is nobody's.
    page.catch(() => undefined);
    if (this.#over === undefined) this.#worker?.postMessage(task);
    else this.#refuse(this.#over);
    return page;
  }

  #start(): Worker {
    const extension = import.meta.url.endsWith('.ts') ? 'ts' : 'js';
    const worker = new Worker(new URL(`page-worker.${extension}`, import.meta.url), { workerData: this.#reader });
    worker.on('message', (page: string) => this.#asked.shift()?.resolve(page));
    worker.on('error', (error: Error) => this.#refuse(error));
    worker.on('exit', () => this.#refuse(new Error('its thread is over')));
    return worker;
  }

  /** Whoever waits, and whoever asks later, hears the first reason. */
  #refuse(reason: Error): void {
    this.#over ??= reason;
    for (const { reject } of this.#asked.splice(0)) reject(this.#over);
  }
}
