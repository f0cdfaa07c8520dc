import { threadId } from 'node:worker_threads';

/** Where whoever changes a store has the engine write what memory does not hold; what is unpacked on the way goes there, too. */
export const spillName = 'spill';

/**
 * The same for readers, of whom there may be several at once, on other threads as well: the engine calls its files the same in each, and
 * in one folder they would read back what another wrote.
 */
export function readersSpillName(): string {
  return `${spillName}-${process.pid}-${threadId}`;
}

/** Whether a name in a store's folder is such a folder's, whoever's it was. */
export function isSpillName(name: string): boolean {
  return name === spillName || /^spill-\d+-\d+$/.test(name);
}
