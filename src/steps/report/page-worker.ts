import { parentPort, workerData } from 'node:worker_threads';
import { type PageMaking, type PageTask, taskFiles } from './page-task.ts';

// The thread of `PageThread`: what a page says in, its files out, in the order of asking.
let before = Promise.resolve();
parentPort?.on('message', (task: PageTask) => {
  before = before.then(async () => parentPort?.postMessage(await taskFiles(task, workerData as PageMaking)));
});
