import { removeUnfinished } from '../store/whole-file.ts';
import { remark } from './context.ts';

const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

let inOrder: ((signal: NodeJS.Signals) => void) | undefined;

/**
 * Ends the program when it is told to: what it writes goes, the store undoes what was under way, and the signal counts as the
 * end, which a shell tells as status 130, 143 or 129.
 */
export function endWhenTold(): void {
  for (const signal of signals) process.on(signal, onSignal);
}

/** Lets a command that goes on and on come to an end of its own at the first signal; the second ends it. */
export function endInOrder(work: (signal: NodeJS.Signals) => void): void {
  inOrder = work;
}

function onSignal(signal: NodeJS.Signals): void {
  const work = inOrder;
  inOrder = undefined;
  if (work !== undefined) return work(signal);
  removeUnfinished();
  remark('dryhold: interrupted; what was under way is undone, run it again');
  endBy(signal);
}

/** Ends the program by a signal that it was told, once all is in order. */
export function endBy(signal: NodeJS.Signals): void {
  for (const each of signals) process.removeListener(each, onSignal);
  process.kill(process.pid, signal);
}
