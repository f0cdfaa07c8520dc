import { parentPort, workerData } from 'node:worker_threads';
import { Store } from '../store/store.ts';
import { ownerData } from './owner-data.ts';
import type { OwnerAnswer, OwnerTask } from './owner-messages.ts';
import { sendable } from './sent-error.ts';

// The thread of `OwnerThread`: works out the owner's page, then holds its store until it is told to end. One that is ended within a query
// takes the whole process along, so its queries are told to stop.
const { folder, options } = workerData as OwnerTask;
const answer = (message: OwnerAnswer) => parentPort?.postMessage(message);

const opened = Store.open(folder, 'read');
const work = opened
  .then((store) => ownerData(store, options))
  .then(
    (data) => answer({ data }),
    (error: unknown) => answer(sendable(error)),
  );

parentPort?.once('message', () => void end());

async function end(): Promise<void> {
  const store = await opened.catch(() => undefined);
  const stopping = setInterval(() => store?.connection.interrupt(), 50);
  await work;
  clearInterval(stopping);
  await store?.close();
  parentPort?.close();
}
