import { parentPort, workerData } from 'node:worker_threads';
import type { Reader } from '../../pages/page-shell.ts';
import { type PageTask, renderTask } from './page-task.ts';

// The thread of `PageThread`: what a page says in, the page out, in the order of asking.
let before = Promise.resolve();
parentPort?.on('message', (task: PageTask) => {
  before = before.then(async () => parentPort?.postMessage(await renderTask(task, workerData as Reader)));
});
