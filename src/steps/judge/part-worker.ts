import { enableCompileCache } from 'node:module';
import { parentPort, workerData } from 'node:worker_threads';
import { sendable } from '../sent-error.ts';
import type { Answer, PartSettings, Request } from './part-messages.ts';

// A thread of `PartThreads`: tasks in, parts written, in the order of asking. It is over when it is told so and the engine has
// let go; one that is ended within a query takes the whole process along.
const { policy, compileCache } = workerData as PartSettings;
if (compileCache !== undefined) enableCompileCache(compileCache);
const { PartMaker } = await import('./part-maker.ts');
const maker = new PartMaker(policy);
const answer = (message: Answer) => parentPort?.postMessage(message);

parentPort?.on('message', (request: Request) => {
  if (request === 'end') void maker.end().finally(() => parentPort?.close());
  else
    maker.make(request).then(
      () => answer('done'),
      (error: unknown) => answer(sendable(error)),
    );
});
