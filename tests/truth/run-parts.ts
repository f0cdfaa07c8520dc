import { fork } from 'node:child_process';
import type { AskedPart, ToldPart } from './told-part.ts';

const atOnce = 2;

/**
 * Runs parts, each in a process of its own, two at a time.
 *
 * @param asked in the order in which they are begun: the longest first, so that none is left to run alone for long
 * @returns what came of each, in the same order
 */
export function runParts(asked: readonly AskedPart[]): Promise<ToldPart>[] {
  const results = asked.map(() => Promise.withResolvers<ToldPart>());
  let next = 0;
  const work = async (): Promise<void> => {
    while (next < asked.length) {
      const at = next;
      next += 1;
      await inProcess(asked[at]).then(results[at].resolve, results[at].reject);
    }
  };
  for (let lane = 0; lane < atOnce; lane += 1) void work();
  return results.map(({ promise }) => promise);
}

function inProcess(asked: AskedPart): Promise<ToldPart> {
  const { promise, resolve, reject } = Promise.withResolvers<ToldPart>();
  const child = fork(new URL('part-process.ts', import.meta.url), { serialization: 'advanced' });
  // Where another part fails, or somebody ends it all, none is left to run on.
  const end = () => child.kill();
  process.once('exit', end);
  child.once('message', (told) => resolve(told as ToldPart));
  child.once('error', reject);
  child.once('exit', (status) => {
    process.off('exit', end);
    reject(new Error(`part ${asked.name} ended with status ${status}`));
  });
  child.send(asked);
  return promise;
}
