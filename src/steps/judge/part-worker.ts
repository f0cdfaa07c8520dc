import { parentPort, workerData } from 'node:worker_threads';
import { sendable } from '../sent-error.ts';
import { PartMaker } from './part-maker.ts';
import type { Answer, PartSettings, Request } from './part-messages.ts';

// A thread of `PartThreads`: tasks in, parts written, in the order of asking. It is over when it is told so and the engine has
// let go; one that is ended within a query takes the whole process along.
const maker = new PartMaker((workerData as PartSettings).policy);
const answer = (message: Answer) => parentPort?.postMessage(message);

parentPort?.on('message', (request: Request) => {
  if (request === 'end') void maker.end().finally(() => parentPort?.close());
  else
    maker.make(request).then(
      () => answer('done'),
      (error: unknown) => answer(sendable(error)),
    );
});
