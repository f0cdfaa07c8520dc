import { Worker } from 'node:worker_threads';
import type { ReportFile } from './page-files.ts';
import { type PageMaking, type PageTask, taskFiles } from './page-task.ts';

/** With fewer pages a thread takes longer to start than they take. */
const fewestPages = 12;

/** Makes the pages that are many on another thread while this one works out what the others say; few of them here, when they are asked for. */
export class PageThread {
  readonly #making: PageMaking;
  #worker: Worker | undefined;
  /** Why it is over, once it is. */
  #over: Error | undefined;
  /** Answers come in the order of asking. */
  readonly #asked: { resolve: (files: ReportFile[]) => void; reject: (reason: Error) => void }[] = [];

  constructor(making: PageMaking) {
    this.#making = making;
  }

  /** Begins some pages, each of which is awaited by the function that stands for it. */
  render(tasks: readonly PageTask[]): (() => Promise<ReportFile[]>)[] {
    if (this.#worker === undefined && tasks.length < fewestPages)
      return tasks.map((task) => () => taskFiles(task, this.#making));
    this.#worker ??= this.#start();
    return tasks.map((task) => {
      const files = this.#ask(task);
      return () => files;
    });
  }

  /** Ends the thread, whatever it is at. */
  async close(): Promise<void> {
    await this.#worker?.terminate();
  }

  #ask(task: PageTask): Promise<ReportFile[]> {
    const files = new Promise<ReportFile[]>((resolve, reject) => this.#asked.push({ resolve, reject }));
    // Looked at when its turn comes; until then a refusal is nobody's.
    files.catch(() => undefined);
    if (this.#over === undefined) this.#worker?.postMessage(task);
    else this.#refuse(this.#over);
    return files;
  }

  #start(): Worker {
    const extension = import.meta.url.endsWith('.ts') ? 'ts' : 'js';
    const worker = new Worker(new URL(`page-worker.${extension}`, import.meta.url), { workerData: this.#making });
    worker.on('message', (files: ReportFile[]) => this.#asked.shift()?.resolve(files));
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
