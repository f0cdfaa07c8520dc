import { type ChildProcess, fork } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Answer, Order } from './fuzz-worker.ts';
import type { Taken } from './take-cases.ts';

const program = fileURLToPath(new URL('fuzz-worker.ts', import.meta.url));

/** A file may take so long [s]. */
export const longestS = 5;
/** What takes so long is given up however little it works [s]. */
const longestWaitS = 60;
/** A process may take so long to begin [s]. */
const longestStartS = 600;

/** What became of an order: what the worker says, or that it hung, or died. */
export type Outcome = Taken | { readonly hung: true } | { readonly died: string };

/** The time that a process has worked, all threads together [s]; without an end where the system does not tell. */
function cpuSeconds(pid: number | undefined): number {
  try {
    const fields = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')[1].split(' ');
    return (Number(fields[11]) + Number(fields[12])) / 100;
  } catch {
    return Number.POSITIVE_INFINITY;
  }
}

/** A worker that is watched: one that says nothing for too long is ended, and one that died is replaced. */
export class WatchedWorker {
  #child: ChildProcess | undefined;
  /** The longest time between two signs of life that was seen [s]. */
  longestS = 0;

  async run(order: Order): Promise<Outcome> {
    const child = this.#child ?? (await this.#begin());
    return new Promise((resolve) => {
      let last = performance.now();
      let timer: NodeJS.Timeout | undefined;
      const settle = (outcome: Outcome) => {
        clearTimeout(timer);
        child.off('message', heard).off('exit', ended);
        resolve(outcome);
      };
      const wait = () => {
        clearTimeout(timer);
        const before = cpuSeconds(child.pid);
        const look = () => {
          // On a busy machine a file may wait for others: what counts is what it takes itself.
          const worked = cpuSeconds(child.pid) - before;
          if (worked < longestS && performance.now() - last < longestWaitS * 1000) {
            timer = setTimeout(look, 1000);
            return;
          }
          settle({ hung: true });
          child.kill('SIGKILL');
          this.#child = undefined;
        };
        timer = setTimeout(look, longestS * 1000);
      };
      const heard = (answer: Answer) => {
        this.longestS = Math.max(this.longestS, (performance.now() - last) / 1000);
        last = performance.now();
        if ('taken' in answer) settle(answer.taken);
        else wait();
      };
      const ended = (code: number | null, signal: string | null) => {
        this.#child = undefined;
        settle({ died: signal ?? `status ${code}` });
      };
      child.on('message', heard).on('exit', ended);
      wait();
      child.send(order);
    });
  }

  end(): void {
    this.#child?.kill();
    this.#child = undefined;
  }

  async #begin(): Promise<ChildProcess> {
    const child = fork(program, { stdio: ['ignore', 'ignore', 'inherit', 'ipc'] });
    await new Promise<void>((resolve, reject) => {
      const timer = setTimeout(() => reject(new Error('the worker does not begin')), longestStartS * 1000);
      child.once('message', () => {
        clearTimeout(timer);
        resolve();
      });
      child.once('exit', () => reject(new Error('the worker ended before it began')));
    });
    child.removeAllListeners('exit');
    this.#child = child;
    return child;
  }
}
