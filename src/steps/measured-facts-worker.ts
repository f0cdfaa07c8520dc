import { parentPort } from 'node:worker_threads';
import { SliceFacts } from './slice-facts.ts';
import type { Answer, Request } from './measured-facts-messages.ts';
import { sendable } from './sent-error.ts';

// A thread of `MeasuredFactsPool`: slices in, the facts of their jobs’ readings out, in the order of asking. It is over when it
// is told so and the engine has let go; one that is ended within a query takes the whole process along.
const facts = new SliceFacts();
const answer = (message: Answer) => parentPort?.postMessage(message);

parentPort?.on('message', (request: Request) => {
  if (request === 'end') void facts.end().finally(() => parentPort?.close());
  else
    facts.of(request).then(
      (found) => answer({ facts: found }),
      (error: unknown) => answer(sendable(error)),
    );
});
